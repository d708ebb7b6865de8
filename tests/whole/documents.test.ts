/** README.md and DEVELOPERS.md: links lead somewhere, commands exist, the example builds, the tables say what the code does. */
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { hasFailed, makeSet } from "../../src/build.ts";
import { main, type Terminal } from "../../src/cli.ts";
import { JOINT_RULES } from "../../src/project/joint-rules.ts";
import { readProject } from "../../src/project/read.ts";
import { projectSchema } from "../../src/project/schema/project.ts";
import { stockFile } from "../../src/project/schema/shop.ts";
import { setSchema } from "../../src/set/schema.ts";
import { PICTURE_WIDTH, PICTURES } from "../support/pictures.ts";

const ROOT = resolve(import.meta.dirname, "../..");
const DOCUMENTS = ["README.md", "DEVELOPERS.md"];
const read = (file: string): string => readFileSync(join(ROOT, file), "utf8");
const readme = read("README.md");
const developers = read("DEVELOPERS.md");

/** Code blocks of a language, without their indentation. */
function blocks(text: string, language: string): string[] {
  const fence = new RegExp(`^( *)\`\`\`${language}\\n([\\s\\S]*?)^ *\`\`\`$`, "gm");
  return [...text.matchAll(fence)].map(([, indent = "", body = ""]) =>
    body.replaceAll(new RegExp(`^${indent}`, "gm"), ""),
  );
}

/** Anchors as a page of markdown gives them to its headings. */
const anchors = (text: string): string[] =>
  [...text.matchAll(/^#+ (.*)$/gm)].map(([, heading = ""]) =>
    heading
      .toLowerCase()
      .replace(/[^\w\- ]/g, "")
      .replace(/ /g, "-"),
  );

describe.each(DOCUMENTS)("links of %s", (document) => {
  const text = read(document);
  const links = [...text.matchAll(/\]\(([^)\s]+)\)/g)].map(([, link]) => link ?? "");

  test("there are some, and each leads to a file of the project, or to a heading", () => {
    expect(links.length).toBeGreaterThan(5);
    for (const link of links) {
      expect(link, document).not.toMatch(/^([a-z]+:|\/|\.\.)/);
      const [path = "", anchor] = link.split("#");
      expect(existsSync(join(ROOT, path)), `${document} links to ${link}`).toBe(true);
      if (anchor !== undefined) expect(anchors(path === "" ? text : read(path)), link).toContain(anchor);
    }
  });

  test("every file and folder named in passing is there", () => {
    const made = /^(out\/|svg\/|parts\/|draft\/|projects\/stilt-box\.json)/;
    const named = [...text.matchAll(/`([\w.-]+\/[\w./-]*)`/g)]
      .map(([, name]) => name ?? "")
      .filter((name) => !made.test(name));
    expect(named.length).toBeGreaterThan(0);
    for (const name of named) expect(existsSync(join(ROOT, name)), `${document} names ${name}`).toBe(true);
  });
});

describe("commands", () => {
  const scripts = (JSON.parse(read("package.json")) as { scripts: Record<string, string> }).scripts;
  const inline = [readme, developers].flatMap((text) =>
    [...text.matchAll(/`((?:npm|npx|node) [^`]+)`/g)].map(([, line]) => line ?? ""),
  );
  const commands = [...blocks(readme, "sh"), ...blocks(developers, "sh")]
    .flatMap((block) => block.trim().split("\n"))
    .concat(inline)
    .flatMap((line) => line.split(" && "));

  test("the two commands stand in README", () => {
    expect(commands).toEqual(expect.arrayContaining(["npm ci", "npm run build", "npm test"]));
  });

  test.each(commands)("%s", async (command) => {
    const words = command.split(" ");
    if (words[0] === "npm") {
      const script = words[1] === "run" ? (words[2] ?? "") : (words[1] ?? "");
      expect(["ci", ...Object.keys(scripts)]).toContain(script);
      return;
    }
    if (words[0] === "npx") {
      expect(words[1]).toBe("tsx");
      expect(existsSync(join(ROOT, words[2] ?? "")), command).toBe(true);
      return;
    }
    expect(words.slice(0, 2)).toEqual(["node", "bin/dryfit.js"]);
    expect(existsSync(join(ROOT, "bin/dryfit.js"))).toBe(true);
    const [call = "", ...rest] = words.slice(2);
    const help = await helpOf(call);
    for (const option of rest.filter((word) => word.startsWith("--"))) expect(help, command).toContain(option);
    for (const file of rest.filter((word) => word.startsWith("projects/")))
      expect(existsSync(join(ROOT, file)), command).toBe(true);
  });
});

async function helpOf(call: string): Promise<string> {
  let said = "";
  const io: Terminal = {
    say: (text) => {
      said += text;
    },
    complain: (text) => {
      said += text;
    },
    colours: false,
  };
  expect(await main([call, "--help"], io)).toBe(0);
  return said;
}

describe("the example of README", () => {
  const example = blocks(readme, "json")[0] ?? "";
  let folder: string;

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "dryfit-readme-"));
    return () => rmSync(folder, { recursive: true, force: true });
  });

  const setOf = (text: string) => {
    const file = join(folder, "stilt-box.json");
    writeFileSync(file, text);
    const { project, warnings } = readProject(file);
    expect(warnings).toEqual([]);
    return makeSet(project, { draft: false, olderSet: null });
  };

  test("builds as it stands, and fits", () => {
    const set = setOf(example);
    expect(hasFailed(set)).toBe(false);
    expect(set.parts.map(({ name }) => name)).toEqual([
      "left side",
      "right side",
      "bottom",
      "top panel",
      "divider",
      "shelf",
      "back",
    ]);
  });

  /** A block of README that shows one field of a project file. */
  const fieldsShown = (key: string): object =>
    JSON.parse(
      blocks(readme, "json").find((block) => block.includes(`"${key}":`) && block !== example) ?? "",
    ) as object;

  test("takes the joints that README shows, for its shelf and its divider", () => {
    const { joints } = fieldsShown("joints") as { joints: object[] };
    const set = setOf(example.replace('"unit": "in",', `"unit": "in", "joints": ${JSON.stringify(joints)},`));
    const nameOf = (mark: string): string => set.parts.find((part) => part.mark === mark)!.name;
    const chosen = set.joints.filter(({ kind }) => kind === "tongue" || kind === "butt");
    const told = chosen.map(({ entering, receiving, kind }) => `${nameOf(entering)} in ${nameOf(receiving)}: ${kind}`);
    expect(told).toContain("shelf in right side: tongue");
    expect(told).toContain("divider in bottom: butt");
  });

  test("takes the print correction that README shows", () => {
    const { paper } = fieldsShown("paper") as { paper: object };
    const set = setOf(example.replace('"unit": "in",', `"unit": "in", "paper": ${JSON.stringify(paper)},`));
    // By hand: two readings, each weighed by its bar.
    const x = (98.4 * 100 + 3.9375 * 25.4 * 101.6) / (100 ** 2 + 101.6 ** 2);
    expect(set.paper.print.x).toBeCloseTo(x, 6);
    expect(set.paper.print.y).toBe(1.012);
    expect(set.sticks[0]!.print.x).toBeCloseTo(1 / x, 5);
  });

  test("takes every way of writing a length that README names", () => {
    const [sentence] = /\*\*Lengths\*\*[\s\S]*?\.\n/.exec(readme) ?? [""];
    const lengths = [...sentence.matchAll(/`("[^`]+")`/g)].map(([, text]) => text ?? "");
    expect(lengths.length).toBe(7);
    const inMillimetres = lengths.map((text) => {
      const file = join(folder, "lengths.json");
      writeFileSync(file, example.replace('"name": "box",', `"name": "box", "at": [${text}, 0, 0],`));
      return readProject(file).project.cases[0]!.at[0];
    });
    const inch = 25.4;
    expect(inMillimetres.map((mm) => Number(mm.toFixed(6)))).toEqual(
      [24.5 * inch, 24.5 * inch, (23 / 32) * inch, 0.705 * inch, 18, 0.75 * inch, 62.5 * inch].map((mm) =>
        Number(mm.toFixed(6)),
      ),
    );
  });
});

describe("README keeps up with the schemas", () => {
  /** Keys of the first cells of the table's rows, in order. */
  const rows = (text: string, head: RegExp): string[][] => {
    const table = text.slice(text.search(head)).split("\n\n")[0] ?? "";
    return table
      .split("\n")
      .slice(2)
      .map((row) =>
        row
          .split("|")
          .slice(1, -1)
          .map((cell) => cell.trim()),
      );
  };
  const codes = (cell: string): string[] => [...cell.matchAll(/`([^`]+)`/g)].map(([, code]) => code ?? "");

  test("the table of a case has every key of a case", () => {
    const keys = rows(readme, /^\| key +\| what it says/m).flatMap(([cell = ""]) => codes(cell));
    const caseShape = projectSchema.shape.cases.element.shape;
    expect(keys.sort()).toEqual(Object.keys(caseShape).sort());
  });

  test("the table of a frame has every key of one", () => {
    const keys = rows(readme, /^\| of a frame +\| what it says/m).flatMap(([cell = ""]) => codes(cell));
    const frameShape = projectSchema.shape.cases.element.shape.frame.unwrap().shape;
    expect(keys.sort()).toEqual(Object.keys(frameShape).sort());
  });

  test("the table of drawers has every key of theirs", () => {
    const keys = rows(readme, /^\| of drawers +\| what it says/m).flatMap(([cell = ""]) => codes(cell));
    const drawersShape = projectSchema.shape.cases.element.shape.drawers.unwrap().shape;
    expect(keys.sort()).toEqual(Object.keys(drawersShape).sort());
  });

  test("it names every choice", () => {
    const table = [/^\| key +\| what it says/m, /^\| of a frame +\| what it says/m, /^\| of drawers +\| what it says/m]
      .flatMap((head) => rows(readme, head))
      .flat()
      .join(" ");
    const schema = JSON.stringify(z.toJSONSchema(projectSchema.shape.cases.element, { io: "input" }));
    const choices = [...schema.matchAll(/"enum":\[([^\]]*)\]/g)].flatMap(([, list = ""]) => list.split(","));
    expect(choices.length).toBeGreaterThan(7);
    for (const choice of choices) expect(table).toContain(choice);
  });

  test("it names every field of joinery, and every list of the set that it says is in it", () => {
    for (const key of Object.keys(projectSchema.shape.joinery.unwrap().shape)) expect(readme).toContain(`\`${key}\``);
    const [paragraph] = /## set\.json\n[\s\S]*?\n##/.exec(readme) ?? [""];
    const named = codes(paragraph).filter((name) => !["feature", "version"].includes(name));
    for (const name of named) expect(Object.keys(setSchema.shape)).toContain(name);
    expect(named.length).toBeGreaterThan(7);
  });

  test("the stock of the example is the shop's", () => {
    expect(Object.keys(stockFile.shape)).toContain("stock");
    expect(read("shared/stock.json")).toContain('"three-quarter-ply"');
  });
});

describe("DEVELOPERS.md", () => {
  test("prints the table of joints as the code has it", () => {
    const printed = [
      ...developers.matchAll(
        /^\| (\w+) +\| (\w+) +\| (housed|tongue|butt|face|edge|pin) +\| (seated|slip|floating) +\| ([\w, ]+?) +\|$/gm,
      ),
    ].map((row) => row.slice(1, 6).join(" "));
    const coded = Object.entries(JOINT_RULES).flatMap(([entering, row]) =>
      Object.entries(row).map(
        ([receiving, { kind, fit, how }]) => `${entering} ${receiving} ${kind} ${fit} ${how.join(", ")}`,
      ),
    );
    expect(printed.sort()).toEqual(coded.sort());
  });

  test("tells the groove's journey with the figures of today", () => {
    const set = makeSet(readProject(join(ROOT, "projects/ware-bookcase.json")).project, {
      draft: false,
      olderSet: null,
    });
    const shown = JSON.parse(/`(\{ "kind": "groove".*\})`/.exec(developers)?.[1] ?? "") as object;
    const side = set.parts.find(({ key }) => key === "bookcase/side-left");
    const shelf = set.parts.find(({ key }) => key === "bookcase/shelf-1");
    const groove = side?.features.find(({ holds, kind }) => holds === shelf?.mark && kind === "groove");
    expect(groove).toMatchObject(shown);
    const stick = set.sticks.find(({ name }) => name === "bookcase height");
    const band = stick?.marks.find(({ holds }) => holds.includes(shelf?.mark ?? ""));
    expect([band?.at, (band?.at ?? 0) + (band?.width ?? 0)]).toEqual([517.6, 535.4]);
    const joint = set.joints.find(({ entering, receiving }) => entering === shelf?.mark && receiving === side?.mark);
    expect(joint?.gap[0]).toBeCloseTo(0.05, 9);
    const setting = set.settings.find(
      ({ runs, fence }) => fence === 517.6 && runs.some(({ mark }) => mark === side?.mark),
    );
    expect(setting).toMatchObject({ tool: "router", carrier: "straightedge" });
    expect(setting?.runs.map(({ datum }) => datum)).toEqual(["l0", "l0"]);
  });

  test("names every stage of src", () => {
    const drawn = blocks(developers, "")[0] ?? "";
    const named = drawn
      .trim()
      .split("\n")
      .map((line) => line.split(" ")[0]);
    const stages = [
      "base",
      "paper",
      "project",
      "model",
      "printed",
      "set",
      "plans",
      "audit",
      "drawings",
      "site",
      "writers",
    ];
    expect(named).toEqual(stages);
    for (const stage of stages) expect(statSync(join(ROOT, "src", stage)).isDirectory()).toBe(true);
  });
});

describe("pictures", () => {
  test.each(PICTURES)("$file is in README and is a picture of the width it is drawn at", ({ file }) => {
    expect(readme).toContain(`](${file})`);
    const png = readFileSync(join(ROOT, file));
    expect(png.subarray(1, 4).toString("latin1")).toBe("PNG");
    expect(png.readUInt32BE(16)).toBe(PICTURE_WIDTH);
  });
});
