const SCHEMES = ["http:", "https:", "mailto:"];

/** An address that a drawing may link to, spelt in ASCII; one that would run something is refused. */
export function linkAddress(address: string): string {
  const url = URL.canParse(address) ? new URL(address) : null;
  if (url === null || !SCHEMES.includes(url.protocol)) {
    throw new Error(`Internal error: ${JSON.stringify(address)} is no address to link to`);
  }
  return url.href;
}
