/** What a folder holds, to be compared with another. */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";

/** Every file below a folder with a digest of its bytes. */
export function digests(folder: string): Record<string, string> {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).sort();
  return Object.fromEntries(
    files
      .filter((name) => statSync(join(folder, name)).isFile())
      .map((name) => [
        name,
        createHash("sha256")
          .update(readFileSync(join(folder, name)))
          .digest("hex"),
      ]),
  );
}
