/** How long each stage of a build takes, for every example: run by `npm run bench`; no test depends on it. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { buildJob } from "../../src/build.ts";
import { EXAMPLES, exampleFile } from "./jobs/examples.ts";
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
