/** A headless browser for the site's tests: an installed one first, else the packaged one. */
import { existsSync } from "node:fs";
import packaged from "@sparticuz/chromium";
import { type Browser, chromium } from "playwright-core";

const INSTALLED = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
];

/** Nothing that asks the network, nothing that needs a screen. */
const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** What the packaged browser needs from the system, by the Debian package that holds it. */
const DEBIAN_PACKAGES: readonly (readonly [library: string, debian: string])[] = [
  ["libnss3.so", "libnss3"],
  ["libnssutil3.so", "libnss3"],
  ["libsmime3.so", "libnss3"],
  ["libnspr4.so", "libnspr4"],
  ["libplc4.so", "libnspr4"],
  ["libplds4.so", "libnspr4"],
  ["libexpat.so.1", "libexpat1"],
];

/** The sentence a test fails with when a browser is there but cannot start; null when libraries are not the reason. */
export function missingLibraries(startError: string): string | null {
  const library = /error while loading shared libraries: (\S+?):/.exec(startError)?.[1];
  if (library === undefined) return null;
  const known = DEBIAN_PACKAGES.find(([name]) => name === library)?.[1];
  const all = [...new Set(DEBIAN_PACKAGES.map(([, debian]) => debian))].join(" ");
  return `The browser for the site's tests cannot start: ${library} is missing${known ? ` (Debian package ${known})` : ""}. Install a browser (apt-get install chromium), or what the packaged one needs: apt-get install ${all}`;
}

export async function openBrowser(): Promise<Browser> {
  const executablePath = INSTALLED.find((path) => existsSync(path)) ?? (await packaged.executablePath());
  try {
    return await chromium.launch({ executablePath, args: FLAGS, headless: true });
  } catch (error) {
    const text = error instanceof Error ? error.message : String(error);
    throw new Error(missingLibraries(text) ?? text, { cause: error });
  }
}
