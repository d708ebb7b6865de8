/** What of a setting an earlier set did not have: a figure of the machine's, a part that was run otherwise, where its cut stops. */
import { isSame } from "../../base/length.ts";
import type { DryfitSet, SetSetting } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import type { Earlier } from "../draughting/revised.ts";
import { guideDistance } from "./lie.ts";
import { type Pass, passesOf } from "./passes.ts";

/** One pass of an earlier set, with its setting. */
export type PassBefore = { setting: SetSetting; pass: Pass };

export const isSetAlike = (a: SetSetting, b: SetSetting): boolean =>
  a.tool === b.tool &&
  a.carrier === b.carrier &&
  a.operation === b.operation &&
  isSame(a.width, b.width) &&
  isSame(a.depth, b.depth) &&
  isSame(guideDistance(a), guideDistance(b));

/** The earlier setting whose figures this one's are laid beside: the same one, else the one that most of its parts were run at; none where nothing in it was run before. */
export function settingBefore({ set }: Earlier, setting: SetSetting): SetSetting | null {
  const same = set.settings.find((one) => isSetAlike(one, setting));
  if (same !== undefined) return same;
  const shared = (one: SetSetting): number =>
    setting.runs.filter((run) =>
      one.runs.some(({ mark, face, datum }) => mark === run.mark && face === run.face && datum[0] === run.datum[0]),
    ).length;
  const alike = set.settings.filter(
    (one) => one.operation === setting.operation && one.holds.some((mark) => setting.holds.includes(mark)),
  );
  const most = Math.max(0, ...alike.map(shared));
  return most === 0 ? null : alike.find((one) => shared(one) === most)!;
}

const holdsOf = (set: DryfitSet, { mark, feature }: Pass): string | null => partOf(set, mark).features[feature]!.holds;

/** The pass by which the same cut was made: of the same part, in the same face, for what it held. */
export function passBefore(set: DryfitSet, { set: older }: Earlier, pass: Pass): PassBefore | null {
  const holds = holdsOf(set, pass);
  const all = older.settings.flatMap((setting) =>
    passesOf(older, setting).map((one): PassBefore => ({ setting, pass: one })),
  );
  const mates = all.filter(
    ({ pass: one }) => one.mark === pass.mark && one.face === pass.face && holdsOf(older, one) === holds,
  );
  return mates.find(({ pass: one }) => one.datum === pass.datum) ?? mates[0] ?? null;
}

/** Whether a part is run as it was: at the same figures, from the same datum. */
export const isRunAlike = (setting: SetSetting, pass: Pass, before: PassBefore | null): boolean =>
  before !== null && before.pass.datum === pass.datum && isSetAlike(before.setting, setting);
