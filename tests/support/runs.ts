/** How much is tried: the whole by `npm run prove`, a tenth with the same seed by `npm test`. */
export const IS_WHOLE = process.env.PROVE === "whole";

export const runs = (whole: number): number => (IS_WHOLE ? whole : Math.ceil(whole / 10));

export const SEED = 20261125;

/** Lines of a table with its columns in line, told on the console where a person runs it. */
export function tell(title: string, rows: readonly (readonly (string | number)[])[]): void {
  const width = (column: number): number => Math.max(...rows.map((row) => String(row[column] ?? "").length));
  const lines = rows.map((row) =>
    row.map((cell, i) => (i === 0 ? String(cell).padEnd(width(i)) : String(cell).padStart(width(i)))).join("  "),
  );
  console.log([`\n${title}`, ...lines].join("\n"));
}
