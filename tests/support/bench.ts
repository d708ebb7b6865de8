/** How long each stage of a build takes, for every example: run by `npm run bench`; no test depends on it. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { buildJob, makeSet } from "../../src/build.ts";
import { standingSolids } from "../../src/drawings/cases/case-group.ts";
import { explodedOf } from "../../src/drawings/cases/exploded.ts";
import { bodyOf, FRONT_RIGHT, isometric, isometricShapes } from "../../src/drawings/solids/isometric.ts";
import { EXAMPLES, exampleFile } from "./jobs/examples.ts";
import { readText } from "./jobs/project-file.ts";
import { SIXTY_PARTS } from "./jobs/sixty-parts.ts";
import { tell } from "./runs.ts";

const ROUNDS = 3; // the first round also warms the program up

const out = mkdtempSync(join(tmpdir(), "dryfit-bench-"));
try {
  const rows: (string | number)[][] = [];
  for (let round = 1; round <= ROUNDS; round++) {
    for (const name of EXAMPLES) {
      const stages: [string, number][] = [];
      const report = (stage: string, ms: number): void => void stages.push([stage, Math.round(ms)]);
      await buildJob(exampleFile(name), { out, draft: false, marksFrom: null, report });
      const total = stages.reduce((sum, [, ms]) => sum + ms, 0);
      rows.push([`round ${round}, ${name}`, ...stages.map(([stage, ms]) => `${stage} ${ms}`), `all ${total}`]);
    }
  }
  tell("Milliseconds", rows);
} finally {
  rmSync(out, { recursive: true });
}

/** A drawing room of A3. */
const ROOM = { x: 0, y: 0, width: 380, height: 240 };
const PICTURES = 5; // the first also warms the program up

/** Isometric and exploded views of one large case, hidden lines and marks in them, each worked out from the set. */
function benchPictures(): void {
  const set = makeSet(readText(SIXTY_PARTS).project, { draft: false, olderSet: null });
  const drawn = set.assemblies.find(({ kind }) => kind === "case")!;
  const grooved = set.parts.filter(({ features }) => features.length > 0).length;
  const pictures = {
    isometric: () => {
      const bodies = standingSolids(set, drawn, "any").map((solid) => bodyOf(solid));
      isometricShapes(isometric(bodies, FRONT_RIGHT, 1 / 10).drawn);
    },
    "taken apart": () => explodedOf(set, drawn, "front").draw(ROOM),
    "taken apart, from behind": () => explodedOf(set, drawn, "behind").draw(ROOM),
  };
  const rows = Object.entries(pictures).map(([name, draw]) => [
    name,
    ...Array.from({ length: PICTURES }, () => {
      const start = performance.now();
      draw();
      return Math.round(performance.now() - start);
    }),
  ]);
  tell(`Milliseconds for a picture of ${grooved} grooved parts, drawn ${PICTURES} times`, rows);
}

benchPictures();
