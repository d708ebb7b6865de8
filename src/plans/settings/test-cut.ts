/** The cut in scrap before the first part, and when it passes. */
import { formatLengthWithUnit, isSame, type Mm, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { isDoorRole } from "../../project/case/doors.ts";
import { frontFace } from "../../set/facing.ts";
import type { SetFeature, SetPart, SetStock } from "../../set/schema.ts";

/** A groove with the part that enters it, or a shoulder with the part that its tongue enters. */
export type Tested = { part: SetPart; feature: SetFeature; other: SetPart };

/** Less than this is felt with a finger and not measured: common practice, no source. */
const FLUSH: Mm = 0.5;

/** What is told once for all grooves of a setting: they differ only in what enters them. */
export function testFor(cuts: readonly Tested[], stock: readonly SetStock[], unit: Unit): string {
  if (cuts.some(({ feature }) => feature.kind === "lap"))
    return `Halve two scraps of this part's own stock, planed with it, ${formatLengthWithUnit(cuts[0]!.feature.depth, unit)} deep. Pass: laid into each other, both faces are flush; if not, half of what is over is the change.`;
  const shoulders = cuts.filter(({ feature }) => feature.kind === "shoulder");
  if (shoulders.length > 0) return testOfTongue(shoulders, unit);
  const passes = [...new Set(cuts.map((cut) => passOf(cut, stock, unit)))];
  const { depth, width } = cuts[0]!.feature;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const scrap = `a scrap of this part's own ${cuts.some(({ feature }) => !feature.face.startsWith("t")) ? "stock, on its edge" : "sheet"}`;
  // A rabbet has one wall: nothing can be held in it.
  if (cuts.every(isRabbet))
    return `Rabbet ${scrap}, ${show(width)} wide and ${show(depth)} deep. Pass: the calliper finds both, and ${passes.join(" ")}`;
  return `Groove ${scrap}, ${show(depth)} deep. Pass: ${passes.join(" ")}`;
}

const isRabbet = ({ feature }: Tested): boolean => feature.kind === "rabbet";

function testOfTongue(cuts: readonly Tested[], unit: Unit): string {
  const { part, feature } = cuts[0]!;
  const stub = part.features.filter(({ kind, holds }) => kind === "shoulder" && holds === feature.holds);
  const faces = new Set(cuts.map((cut) => cut.feature.face));
  if (stub.length > 1) return testOfStub(part, feature, { stub, isBoth: faces.size > 1 }, unit);
  const tongue = formatLengthWithUnit(part.thickness - feature.depth, unit);
  const into = [...new Set(cuts.map(({ other }) => other.mark))];
  return `Rabbet a scrap of this part's own sheet, so that ${tongue} is left. Pass: the tongue slips into the groove${into.length > 1 ? "s" : ""} of ${listInWords(into)} by hand pressure, and the shoulder comes down on its face.`;
}

/** Two shoulders: the front one by its figure, the rear one by the groove that is cut already. */
function testOfStub(
  part: SetPart,
  feature: SetFeature,
  { stub, isBoth }: { stub: readonly SetFeature[]; isBoth: boolean },
  unit: Unit,
): string {
  const taken = stub.reduce((sum, { depth }) => sum + depth, 0);
  const tongue = formatLengthWithUnit(part.thickness - taken, unit);
  if (isBoth)
    return `Rabbet both faces of a scrap as thick as this part, a little less deep at first. Pass: a tongue of ${tongue} that slips into the groove by hand pressure, front faces flush.`;
  if (feature.face === frontFace(part))
    return `Rabbet the front face of a scrap as thick as this part. Pass: ${formatLengthWithUnit(feature.depth, unit)} deep, as the groove's near wall lies from the face.`;
  return `Turn that scrap over and rabbet its rear face, a little less deep at first. Pass: a tongue of ${tongue} that slips into the groove by hand pressure, front faces flush.`;
}

function passOf({ part, feature, other }: Tested, stock: readonly SetStock[], unit: Unit): string {
  const entering = stock.find(({ id }) => id === other.material);
  if (!entering) throw new Error(`${other.mark} is made of ${other.material}, which the job does not list`);
  const shoulder = other.features.find(({ kind, holds }) => kind === "shoulder" && holds === part.mark);
  // A door of its own that slides in it, not a part of the same case.
  if (isDoorRole(other.role) && !isDoorRole(part.role)) {
    const play = formatLengthWithUnit(feature.width - entering.thickest, unit);
    return `the edge of a scrap of ${entering.name} slides along it by a finger's push, with ${play} of play.`;
  }
  if (isRabbet({ part, feature, other })) return rabbetPass(feature, other, entering, unit);
  // The rabbet leaves a tongue, where not the whole thickness enters.
  if (shoulder !== undefined) {
    const tongue = formatLengthWithUnit(other.thickness - shoulder.depth, unit);
    return `a tongue of ${tongue}, rabbeted in a scrap of ${entering.name}, slips in by hand pressure, and the two hold together when lifted.`;
  }
  const readings =
    entering.readings.length > 1 && !isSame(entering.thickest, entering.thickness)
      ? ` Try the thickest of the sheet (${formatLengthWithUnit(entering.thickest, unit)}) as well.`
      : "";
  return `a scrap of ${entering.name} slips in by hand pressure, and the two hold together when lifted.${readings}`;
}

/** What lies in a rabbet is flush with the outside, or short of it by what the rabbet is wider; never proud. */
function rabbetPass(feature: SetFeature, other: SetPart, entering: SetStock, unit: Unit): string {
  const shoulder = other.features.find(({ kind, holds }) => kind === "shoulder" && holds !== null);
  const enters = shoulder === undefined ? entering.thickest : other.thickness - shoulder.depth;
  const short = feature.width - enters;
  const what = shoulder === undefined ? "a scrap" : `a tongue of ${formatLengthWithUnit(enters, unit)} on a scrap`;
  const lies =
    short > FLUSH
      ? `${formatLengthWithUnit(short, unit)} below the outside`
      : "flush with the outside or a hair below it, never proud";
  return `${what} of ${entering.name}, laid in, comes ${lies}.`;
}
