/** The site of a set: plain pages that open from a folder, without a network and without a script. */
import type { Unit } from "../base/length.ts";
import type { Page } from "../paper/shape.ts";
import { isMadeAlike } from "../set/fastening.ts";
import type { DryfitSet, SetPart } from "../set/schema.ts";
import { drawingView } from "./drawing.ts";
import { jobView } from "./job.ts";
import { partFile, partView } from "./part.ts";
import { layOut, styleFiles } from "./templates.ts";
import { unitName } from "./words.ts";

export { drawingAnchor } from "./drawing.ts";

export type SiteFiles = Map<string, string | Uint8Array>;

/** A part drawing is keyed by a mark of each that it shows, of those that are made alike: "part-3", "part-5-9". */
function drawingsOf(set: DryfitSet, part: SetPart, drawings: readonly Page[]): Page[] {
  const like = set.parts
    .filter((one) => one.pattern === part.pattern && isMadeAlike(set, part, one))
    .map(({ mark }) => mark);
  return drawings.filter((page) => {
    const [kind, ...marks] = page.key.split("-");
    return kind === "part" && marks.some((mark) => like.includes(mark));
  });
}

/** Files of out/NAME/, without the PDFs, the drawings and set.json that the pages link to. */
export function writeSite(set: DryfitSet, drawings: Page[], svgOf: (page: Page) => string): SiteFiles {
  const svgs = new Map(drawings.map((page) => [page.key, svgOf(page)]));
  const views = (pages: readonly Page[], root: string) =>
    pages.map((page) => drawingView(page, svgs.get(page.key) as string, root));
  const files: SiteFiles = styleFiles("style/");
  files.set("index.html", layOut("job", jobView(set, views(drawings, ""))));
  for (const part of set.parts) {
    const view = partView(set, part, views(drawingsOf(set, part, drawings), "../"));
    files.set(partFile(part.mark), layOut("part", view));
  }
  return files;
}

export type JobEntry = { name: string; title: string; number: string; revision: string; unit: Unit; draft: boolean };

/** Files of out/ itself. Styles lie beside the page, not in a folder: every folder of out/ is a job's. */
export function writeSiteIndex(jobs: readonly JobEntry[]): SiteFiles {
  const files: SiteFiles = styleFiles("");
  const view = {
    pageTitle: "Jobs",
    style: "site.css",
    draft: false,
    jobs: jobs.map((job) => ({
      title: job.title,
      number: job.number,
      revision: job.revision,
      unitName: unitName(job.unit),
      draft: job.draft,
      href: `${encodeURIComponent(job.name)}/${job.draft ? "draft/" : ""}index.html`,
    })),
  };
  files.set("index.html", layOut("jobs", view));
  return files;
}
