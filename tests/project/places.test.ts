/** Ids and pairs that the reader goes by, against the model that is derived from the same project. */
import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { deriveModel } from "../../src/model/derive.ts";
import { mayChoose, pairsIn, placesIn } from "../../src/project/places.ts";
import { readProject } from "../../src/project/read.ts";

const files = ["projects", "tests/projects"].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith(".json"))
    .map((name) => `${folder}/${name}`),
);

test.each(files)("%s: the same parts by the same ids, and the same pairs to choose a joint for", (file) => {
  const { project } = readProject(file);
  for (const { kind, name, design, parts, joints } of deriveModel(project).assemblies) {
    if (kind !== "case") continue;
    const idOf = (key: string): string => (key.startsWith(`${name}/`) ? key.slice(name.length + 1) : "side-left");
    expect(
      placesIn(design)
        .map(({ id, role }) => `${id} ${role}`)
        .sort(),
    ).toEqual(parts.map(({ key, role }) => `${idOf(key)} ${role}`).sort());
    const chosen = pairsIn(design).filter(mayChoose);
    const roles = new Map(chosen.map(({ entering, receiving }) => [`${entering.role} ${receiving.role}`, true]));
    const met = joints.flatMap(({ entering, receiving }) => {
      const own = parts.find(({ key }) => key === entering)!;
      const other = parts.find(({ key }) => key === receiving);
      const isChosen = roles.has(`${own.role} ${other?.role ?? "side"}`);
      return isChosen ? [`${idOf(entering)} in ${idOf(receiving)}`] : [];
    });
    expect(chosen.map(({ entering, receiving }) => `${entering.id} in ${receiving.id}`).sort()).toEqual(met.sort());
  }
});
