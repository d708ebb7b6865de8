/** A job's name is a folder under out/, so it must be a plain one, on any system. */
import { says } from "../schema/fields.ts";

export const FOLDER_NAME = says(
  'a plain folder name: letters, digits, "-", "_", "." and spaces between them',
  'write it like "glaze-console"; the set goes to out/ under that name',
);

// Devices on one family of systems, whatever the extension; then the list of jobs beside the folders, its style and its lettering.
const RESERVED = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?$|^index\.html$|^site\.css$|^source-sans-3-/i;
const PLAIN = /^[\p{L}\p{N}_](?:[\p{L}\p{M}\p{N} ._-]*[\p{L}\p{M}\p{N}_-])?$/u;
const LONGEST_BYTES = 100; // file systems stop at 255 bytes, and a temporary name is made from it

export const isFolderName = (name: string): boolean =>
  PLAIN.test(name) && !RESERVED.test(name) && Buffer.byteLength(name) <= LONGEST_BYTES;
