/** Steps, paper, machines and addresses that contradict themselves: the file's fault, word for word. */

import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { ProblemsFound } from "../../src/base/problem.ts";
import { readShop } from "../../src/project/shop/shop.ts";
import { inFolder, JOB, jobWith, printed, problemsIn, readText } from "../support/jobs/project-file.ts";

const withJob = (extra: string): string => jobWith(['"in",', `"in",\n  ${extra},`]);

describe("the file is at fault", () => {
  test.each<[string, string, string]>([
    [
      "a step too coarse for a joint",
      withJob('"step": "1/8"'),
      `job.json:4:11  step
  error: a rounding step of 1/8 in
  expected: a whole multiple of 1/64 in or of 0.1 mm, at most 1/16 in
  try: write it like "1/16 in", "1/32 in" or "0.1 mm"`,
    ],
    [
      "a step so fine that it is none",
      withJob('"step": "0.0000001 mm"'),
      `job.json:4:11  step
  error: a rounding step of less than 0.1 mm
  expected: a whole multiple of 1/64 in or of 0.1 mm, at most 1/16 in
  try: write it like "1/16 in", "1/32 in" or "0.1 mm"`,
    ],
    [
      "paper too small for the drawings, and for the tiles of a stick",
      withJob(
        '"paper": { "drawings": { "name": "A5", "width": "210 mm", "height": "148 mm" }, "sticks": { "name": "Slip", "width": 5, "height": 8 } }',
      ),
      `job.json:4:26  paper.drawings
  error: "A5" is too small: 210 mm wide and 148 mm high
  expected: paper at least 200 mm wide and 170 mm high
  try: choose larger paper, or turn it
job.json:4:93  paper.sticks
  error: "Slip" is too small: 127 mm wide and 203 mm high
  expected: paper at least 140 mm wide and 140 mm high
  try: choose larger paper, or turn it`,
    ],
    [
      "a grooving cutter the wrong way round, and a base narrower than a bit",
      withJob('"tooling": { "saw": { "dado": { "least": 1 } }, "router": { "base": "3/4" } }'),
      `job.json:4:44  tooling.saw.dado.least
  error: a grooving cutter from 1 in to 13/16 in wide
  expected: "least" no more than "most"
  try: change them over, or measure again
job.json:4:71  tooling.router.base
  error: a router base of 3/4 in, and "1/2 in straight bit" with a diameter of 1/2 in
  expected: a base more than 0.394 in wider than the widest bit
  try: measure the base across the cut, and check the bit's diameter`,
    ],
    [
      "a bit as wide as the shop's base",
      withJob('"tooling": { "router": { "bits": [{ "name": "big", "diameter": 6, "reach": 1 }] } }'),
      `job.json:4:66  tooling.router.bits[0].diameter
  error: a router base of 6 in, and "big" with a diameter of 6 in
  expected: a base more than 0.394 in wider than the widest bit
  try: measure the base across the cut, and check the bit's diameter`,
    ],
    [
      "a trim narrower than its cut",
      jobWith(['"measured": "23/32"', '"measured": "23/32", "trim": "1/16"']),
      `job.json:4:66  stock.three-quarter-ply.trim
  error: a trim of 1/16 in for "three-quarter-ply", and a cut 1/8 in wide
  expected: 0, or at least 1/8 in: the trim includes its cut
  try: trim more, or check the kerf`,
    ],
    [
      "a cut wider than the trim of a stock",
      jobWith(['"in",', '"in",\n  "tooling": { "saw": { "kerf": "3/8" } },'], ['{ "measured": 0.2 }', '{ "trim": 0 }']),
      `job.json:4:33  tooling.saw.kerf
  error: a trim of 1/4 in for "three-quarter-ply", and a cut 3/8 in wide
  expected: 0, or at least 3/8 in: the trim includes its cut
  try: trim more, or check the kerf`,
    ],
    [
      "an address whose folder would be lost behind a question",
      jobWith(['"number"', '"address": "https://shop.example/?job=", "number"']),
      `job.json:2:23  job.address
  error: found "https://shop.example/?job="
  expected: a web address such as "https://shop.example/jobs/", with nothing after a "?" or "#"
  try: begin it with https:// and end it with a folder, or leave it out`,
    ],
    [
      "an address that names a place on a page",
      jobWith(['"number"', '"address": "https://shop.example#jobs", "number"']),
      `job.json:2:23  job.address
  error: found "https://shop.example#jobs"
  expected: a web address such as "https://shop.example/jobs/", with nothing after a "?" or "#"
  try: begin it with https:// and end it with a folder, or leave it out`,
    ],
  ])("%s", (_, text, expected) => {
    const problems = problemsIn(text);
    expect(printed(problems)).toBe(expected);
    expect([...new Set(problems.map(({ kind }) => kind))]).toEqual(["input"]);
  });

  test("the shop's own tooling", () => {
    const message = inFolder((folder) => {
      cpSync("shared", folder, { recursive: true });
      const file = join(folder, "tooling.json");
      writeFileSync(file, readFileSync(file, "utf8").replace('"base": 6', '"base": "1/2"'));
      try {
        readShop(folder);
      } catch (error) {
        if (error instanceof ProblemsFound) return printed(error.problems);
        throw error;
      }
      return "";
    });
    expect(message).toBe(`tooling.json:17:13  router.base
  error: a router base of 1/2 in, and "1/2 in straight bit" with a diameter of 1/2 in
  expected: a base more than 0.394 in wider than the widest bit
  try: measure the base across the cut, and check the bit's diameter`);
  });
});

test("as much as is needed, and no more", () => {
  for (const extra of [
    '"step": "1/16"',
    '"step": "0.1 mm"',
    '"paper": { "drawings": { "name": "Own", "width": "200 mm", "height": "170 mm" } }',
    '"tooling": { "saw": { "kerf": "1/4", "dado": { "least": "3/8", "most": "3/8" } }, "router": { "base": 1 } }',
  ]) {
    expect(printed(problemsIn(withJob(extra)))).toBe("");
  }
  expect(readText(jobWith(['"measured": "23/32"', '"measured": "23/32", "trim": 0'])).project.stock[0]?.trim).toBe(0);
});

test("a case without a place stands beside the one before: as far back and as high", () => {
  const next = (name: string): string =>
    `, { "name": "${name}", "width": 20, "height": 30, "depth": 12, "stock": { "all": "half-ply", "back": "quarter-ply" } }`;
  const text = jobWith(
    ['"name": "box",', '"name": "box", "at": [10, 2, 30],'],
    ["  ]\n}", `    ${next("second")}${next("third")}\n  ]\n}`],
  );
  expect(readText(text).project.cases.map(({ at }) => at.map((length) => Math.round(length * 1e6) / 25.4e6))).toEqual([
    [10, 2, 30],
    [46, 2, 30],
    [66, 2, 30],
  ]);
});

test("an address with a folder, or without one", () => {
  for (const address of ["https://shop.example", "https://shop.example/", "http://shop.example:8080/jobs/a"]) {
    const text = jobWith(['"number"', `"address": "${address}", "number"`]);
    expect(readText(text).project.job.address).toBe(address);
  }
  expect(readText(JOB).project.job.address).toBeNull();
});
