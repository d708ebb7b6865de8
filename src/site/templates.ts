/** The site's templates, style sheet and lettering, read from where they are installed: together they are part of the program. */
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import Handlebars from "handlebars";
import { readWebFaceFile } from "../paper/lettering.ts";

const FOLDER = new URL("../../templates/", import.meta.url);
const EXTENSION = ".hbs";

/** Strict: a field that a template names and the view does not have stops the build instead of printing nothing. */
const STRICT = { strict: true, preventIndent: true };

type Templates = Map<string, Handlebars.TemplateDelegate>;

let compiled: Templates | null = null;

function templates(): Templates {
  if (compiled !== null) return compiled;
  const house = Handlebars.create();
  const found: Templates = new Map();
  for (const file of readdirSync(FOLDER)) {
    if (!file.endsWith(EXTENSION)) continue;
    const name = file.slice(0, -EXTENSION.length);
    // A file's last newline would stand as a space between a length and the full stop after it.
    const template = house.compile(readFileSync(new URL(file, FOLDER), "utf8").trimEnd(), STRICT);
    house.registerPartial(name, template);
    found.set(name, template);
  }
  compiled = found;
  return found;
}

/** Lays a view out with the template of that name. Views are plain records: the templates see own fields only. */
export function layOut(name: string, view: object): string {
  const template = templates().get(name);
  if (template === undefined) throw new Error(`Internal error: no template ${name}`);
  return template(view);
}

const LICENCE = createRequire(import.meta.url).resolve("source-sans/LICENSE.md");

/** Style sheet, lettering (the very cuts that the drawings are measured with, unmodified) and its licence, side by side in one folder ("" or "style/"). */
export function styleFiles(folder: string): Map<string, string | Uint8Array> {
  return new Map<string, string | Uint8Array>([
    [`${folder}site.css`, readFileSync(new URL("site.css", FOLDER), "utf8")],
    [`${folder}source-sans-3-regular.woff2`, readWebFaceFile("regular")],
    [`${folder}source-sans-3-bold.woff2`, readWebFaceFile("bold")],
    [`${folder}source-sans-3-licence.md`, readFileSync(LICENCE)],
  ]);
}
