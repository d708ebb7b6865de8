/** What a piece of work throws, in its own words. */
export function messageOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    return (error as Error).message;
  }
  return "nothing was thrown";
}
