/** What a stock and a saw may say of themselves, and how a mistake is told. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, test } from "vitest";
import { jobWith, printed, problemsIn, readText } from "../support/jobs/project-file.ts";

const stockOf = (more: string) =>
  jobWith(['"three-quarter-ply": { "measured": "23/32" }', `"three-quarter-ply": { "measured": "23/32", ${more} }`]);
const first = (more: string) => readText(stockOf(more)).project.stock[0]!;

describe("a stock", () => {
  test("says its stiffness and its source, its standard's limits, and that it is solid", () => {
    const stiffness = { along: 9000, across: 4000, source: "a data sheet" };
    expect(first(`"stiffness": ${JSON.stringify(stiffness)}`).stiffness).toEqual(stiffness);
    expect(first('"limits": { "least": 0.7, "most": "3/4", "source": "a standard" }').limits).toEqual({
      least: expect.closeTo(17.78, 9),
      most: expect.closeTo(19.05, 9),
      source: "a standard",
    });
    expect([first('"price": 1').solid, first('"solid": true').solid]).toEqual([false, true]);
  });

  test("of another thickness than the shop's keeps neither the shop's stiffness nor its limits", () => {
    expect(first('"price": 1')).toMatchObject({ stiffness: { across: 3500 }, limits: { source: expect.any(String) } });
    expect(first('"nominal": "11/16"')).toMatchObject({ stiffness: { across: 6550 }, limits: null });
    expect(first('"nominal": "3/4"')).toMatchObject({ stiffness: { across: 3500 }, limits: { most: 0.781 * 25.4 } });
  });

  test("with limits the wrong way round, or a stiffness that is none, is an error in words", () => {
    expect(
      printed(problemsIn(stockOf('"limits": { "least": "3/4", "most": 0.7, "source": "a standard" }'))),
    ).toBe(`job.json:4:68  stock.three-quarter-ply.limits
  error: limits from 3/4 in to 0.700 in
  expected: "least" no more than "most"
  try: change them over, or look them up again`);
    expect(
      printed(problemsIn(stockOf('"stiffness": { "along": 95, "across": 4000, "source": "a data sheet" }'))),
    ).toContain(
      `expected: a modulus of elasticity from 500 to 30000 N/mm2
  try: write it like 6550; 1,000,000 psi are 6895 N/mm2`,
    );
  });
});

test("defects that are none, or that lie over each other, are errors in words", () => {
  const offcut = (defects: string): string =>
    jobWith([
      '"three-quarter-ply": { "measured": "23/32" }',
      `"three-quarter-ply": { "measured": "23/32", "offcuts": [{ "label": "A", "length": 40, "width": 8, "defects": ${defects} }] }`,
    ]);
  expect(
    readText(offcut('[{ "from": 0, "to": 2 }, { "from": 2, "to": 3 }]')).project.stock[0]!.offcuts[0]!.defects,
  ).toEqual([
    { from: 0, to: 50.8 },
    { from: 50.8, to: expect.closeTo(76.2, 9) },
  ]);
  expect(printed(problemsIn(offcut('[{ "from": 3, "to": 2 }, { "from": 39, "to": 41 }]')))).toBe(
    `job.json:4:124  stock.three-quarter-ply.offcuts[0].defects[0]
  error: a defect of offcut "A" from 3 in to 2 in
  expected: "from" less than "to", and both on its 40 in
  try: measure it again
job.json:4:148  stock.three-quarter-ply.offcuts[0].defects[1]
  error: a defect of offcut "A" from 39 in to 41 in
  expected: "from" less than "to", and both on its 40 in
  try: measure it again`,
  );
  expect(printed(problemsIn(offcut('[{ "from": 1, "to": 3 }, { "from": 2, "to": 5 }]')))).toContain(
    'error: a defect of offcut "A" from 2 in to 5 in, and one from 1 in to 3 in',
  );
});

test("a saw whose narrowest strip is wider than its fence reaches is an error", () => {
  const job = jobWith(['"unit": "in",', '"unit": "in",\n  "tooling": { "saw": { "rip": 24, "narrowest": 25 } },']);
  expect(printed(problemsIn(job))).toBe(`job.json:4:49  tooling.saw.narrowest
  error: a fence that reaches 24 in, and no strip narrower than 25 in ripped at it
  expected: "narrowest" no more than "rip"
  try: measure again, or check the unit`);
  expect(readText(jobWith()).project.tooling.saw.narrowest).toBeCloseTo(25.4, 9);
});

type JsonSchema = {
  type?: string;
  properties?: Record<string, JsonSchema>;
  items?: JsonSchema;
  anyOf?: JsonSchema[];
};
type Path = (string | number)[];

/** Where a job may name a stock: every text of the published schema that stands under a key "stock" of a case or a worktop. */
function namingPlaces(schema: JsonSchema, path: Path = []): Path[] {
  const own = schema.type === "string" && path.includes("stock") && path[0] !== "stock" ? [path] : [];
  return [
    ...own,
    ...Object.entries(schema.properties ?? {}).flatMap(([key, entry]) => namingPlaces(entry, [...path, key])),
    ...(schema.items === undefined ? [] : namingPlaces(schema.items, [...path, 0])),
    ...(schema.anyOf ?? []).flatMap((one) => namingPlaces(one, path)),
  ];
}

describe("a stock that nobody has", () => {
  const schema: JsonSchema = JSON.parse(
    readFileSync(new URL("../../shared/project.schema.json", import.meta.url), "utf8"),
  );
  const places = namingPlaces(schema);

  test("may be asked for in many places", () => {
    const words = places.map((path) => path.join("."));
    for (const known of ["cases.0.stock", "cases.0.frame.stock", "cases.0.doors.panel.stock", "worktops.0.stock"])
      expect(words).toContain(known);
    expect(words.length).toBeGreaterThan(20);
  });

  test.each(places.map((path) => [path.join("."), path] as const))("is told with its place at %s", (_, path) => {
    const job = parse(jobWith());
    const home = path.slice(0, -1).reduce<Record<string | number, unknown>>((at, step, i) => {
      if (typeof at[step] !== "object") at[step] = typeof path[i + 1] === "number" ? [] : {};
      return at[step] as Record<string | number, unknown>;
    }, job);
    home[path.at(-1)!] = "no-such-board";
    const text = JSON.stringify(job, null, 1);
    const told = problemsIn(text).find(({ found }) => found === 'there is no stock "no-such-board"');
    const before = text.slice(0, text.indexOf('"no-such-board"')).split("\n");
    expect(told?.where).toMatchObject({
      path: path.reduce(
        (at, step) => (typeof step === "number" ? `${at}[${step}]` : at === "" ? step : `${at}.${step}`),
        "",
      ),
      line: before.length,
      column: before.at(-1)!.length + 1,
    });
  });
});
