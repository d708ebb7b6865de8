/** The revision table of the cover, and what changed since the set that this one is laid beside. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetReprint } from "../../set/schema.ts";
import { type Block, besideBlocks, setLines, stackBlocks, TEXT, words } from "../draughting/cell.ts";
import { type FlowItem, flowItem } from "../draughting/flow.ts";

type Revision = DryfitSet["job"]["revisions"][number];

const HEADING: Mm = 3.5;
const GAP: Mm = 1.2;
const MARK_WIDTH: Mm = 11;
const DATE_WIDTH: Mm = 21;
const COLUMN_GAP: Mm = 1.5;
/** The newest stand on the cover, the rest where the lists go on. */
const ON_COVER = 6;

const headingOf = (content: string, width: Mm): Block => setLines(words(content, HEADING, "bold"), width);

const rowOf = ({ revision, date, words: said }: Revision, width: Mm): Block =>
  besideBlocks(
    [
      setLines(words(revision, TEXT, "bold"), MARK_WIDTH),
      setLines(words(date), DATE_WIDTH),
      setLines(words(said), width - MARK_WIDTH - DATE_WIDTH - 2 * COLUMN_GAP),
    ],
    COLUMN_GAP,
  );

/** The newest first: a reader asks what is new. */
const newestFirst = ({ job }: DryfitSet): Revision[] => [...job.revisions].reverse();

/** Null where the job keeps no table and the set is laid beside no other. */
export function revisionsOf(set: DryfitSet, width: Mm): Block | null {
  const newest = newestFirst(set);
  const older = newest.length - ON_COVER;
  const rows = newest.slice(0, ON_COVER).map((one) => rowOf(one, width));
  const more = older > 0 ? [setLines(words(`${older} older: on the next drawing.`), width)] : [];
  const changes = set.reprint === null ? [] : [setLines(words(changesInWords(set, set.reprint)), width)];
  const lines = [...rows, ...more, ...changes];
  return lines.length === 0 ? null : stackBlocks([headingOf("Revisions", width), ...lines], GAP);
}

/** Those the cover had no room for, to be poured into columns. */
export function olderRevisions(set: DryfitSet, width: Mm): FlowItem[] {
  const older = newestFirst(set).slice(ON_COVER);
  if (older.length === 0) return [];
  return [
    flowItem(headingOf("Older revisions", width), { above: 4, keep: true }),
    ...older.map((one) => flowItem(rowOf(one, width), { above: GAP })),
  ];
}

type Why = SetReprint["parts"][number]["why"][number];

/** Of what a label is printed anew for, that which the drawings show. */
const DRAWN: readonly (readonly [Why, string])[] = [
  ["new", "new"],
  ["size", "size"],
  ["joinery", "joints"],
  ["hand", "hand"],
  ["stock", "stock"],
];

/** More are told by the cut list. */
const MOST_TOLD = 16;

const over = (more: number): string[] => (more > 0 ? [`${more} more in the cut list`] : []);

/** "Changed since revision A, figures in clouds with the letter B: 1 (joints), 6 (size, joints). Made no more: 9 (shelf, cupboard)." */
function changesInWords({ job }: DryfitSet, { revision, parts, withdrawn }: SetReprint): string {
  const changed = parts.flatMap(({ mark, why }) => {
    const drawn = DRAWN.filter(([one]) => why.includes(one)).map(([, said]) => said);
    return drawn.length === 0 ? [] : [`${mark} (${drawn.join(", ")})`];
  });
  const told = [...changed.slice(0, MOST_TOLD), ...over(changed.length - MOST_TOLD)].join(", ");
  const gone = withdrawn.map(({ mark, name }) => `${mark} (${name})`);
  return [
    changed.length === 0
      ? `No part changed since revision ${revision}.`
      : `Changed since revision ${revision}, figures in clouds with the letter ${job.revision}: ${told}.`,
    ...(gone.length === 0
      ? []
      : [`Made no more: ${[...gone.slice(0, MOST_TOLD), ...over(gone.length - MOST_TOLD)].join(", ")}.`]),
  ].join(" ");
}
