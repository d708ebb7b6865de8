/** The whole run of a piece that does not fit: what it leaves alone, and what it tells. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { buildJob, checkJob } from "../../src/build.ts";
import { setSchema } from "../../src/set/schema.ts";
import { digests } from "../support/digests.ts";
import { exampleFile } from "../support/jobs/examples.ts";
import { JOB } from "../support/jobs/project-file.ts";
import { readPdf } from "../support/pages/pdf.ts";

const quiet = { draft: false, marksFrom: null, report: () => {} };

let work: string;

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), "dryfit-build-"));
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

it("set.json is documented by a schema for other programs", async () => {
  const schema = `${JSON.stringify(z.toJSONSchema(setSchema), null, 2)}\n`;
  await expect(schema).toMatchFileSnapshot("../../shared/set.schema.json");
});

describe("a piece that fails its checks", () => {
  /** The dado cutter of this shop is too narrow, and its one bit too short. */
  const toolless = JOB.replace(
    '"unit": "in",',
    '"unit": "in", "tooling": { "saw": { "dado": { "most": "1/2" } }, "router": { "bits": [{ "name": "short straight bit", "diameter": "1/8", "reach": "1/8" }] } },',
  );
  const project = (text: string): string => {
    const file = join(work, "box.json");
    writeFileSync(file, text);
    return file;
  };

  /** A folder with a good set of the piece as it was before. */
  async function builtBefore(folder: string): Promise<string> {
    const out = join(work, folder);
    const good = await buildJob(project(JOB), { ...quiet, out });
    expect([good.ok, good.folder]).toEqual([true, join(out, "box")]);
    return out;
  }

  it("is not written; the last good output stays as it was", async () => {
    const out = await builtBefore("third");
    const before = digests(out);
    const bad = await buildJob(project(toolless), { ...quiet, out });
    expect([bad.ok, bad.folder]).toEqual([false, null]);
    expect(bad.set.checks.filter(({ level }) => level === "failure").map(({ id }) => id)).toContain("no-tool");
    expect(digests(out)).toEqual(before);
  });

  it("is written as a draft on request, every drawing marked, and still fails", async () => {
    const out = await builtBefore("fourth");
    const before = digests(join(out, "box"));
    const draft = await buildJob(project(toolless), { ...quiet, draft: true, out });
    expect([draft.ok, draft.folder]).toEqual([false, join(out, "box", "draft")]);
    const bundle = await readPdf(readFileSync(join(out, "box", "draft", "bundle.pdf")));
    for (const page of bundle.pages) {
      expect(page.texts.map(({ text }) => text).join(" "), page.label).toContain("DRAFT");
    }
    expect(digests(join(out, "box"))).toMatchObject(before);
  });

  it("check alone writes nothing, whether it fits or not", () => {
    const before = digests(work);
    expect(checkJob(exampleFile("ware-bookcase"), quiet).ok).toBe(true);
    expect(digests(work)).toEqual(before);
    expect(checkJob(project(toolless), quiet).ok).toBe(false);
    expect({ ...digests(work), "box.json": "" }).toEqual({ ...before, "box.json": "" });
  });
});
