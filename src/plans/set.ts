/** The whole set as plain data: exact model, printed model, then every plan, in the order in which they need each other. */

import { ProblemsFound } from "../base/problem.ts";
import { deriveModel } from "../model/derive.ts";
import type { Model } from "../model/model.ts";
import { roundModel } from "../printed/round.ts";
import type { LayoutEffort } from "../project/layout.ts";
import { type Project, whereIn } from "../project/project.ts";
import { massOf } from "../set/mass.ts";
import type { DryfitSet, SetPart } from "../set/schema.ts";
import { planAsBuilt } from "./as-built.ts";
import { planAssemblies, planOpenings } from "./assemblies.ts";
import { planOrders } from "./assembly/order.ts";
import { checkLayouts, planChecks } from "./checks/index.ts";
import { checkOf } from "./checks/input.ts";
import { checkGlueUps, checkOrders } from "./checks/order.ts";
import { checkRevision } from "./checks/revision.ts";
import { checkWall } from "./checks/wall.ts";
import { checkWorktops } from "./checks/worktop.ts";
import { planDoors } from "./doors.ts";
import { planDrawers } from "./drawers.ts";
import { planDrilling } from "./drilling.ts";
import { planFinishes } from "./finishes.ts";
import { planGroups } from "./groups.ts";
import { planHandWork } from "./hand-work.ts";
import { planHardware } from "./hardware.ts";
import { planJointList } from "./joint-list.ts";
import { planLabels } from "./labels.ts";
import { alone } from "./layout/rounds.ts";
import type { Thread } from "./layout/thread.ts";
import { assignMarks } from "./marks.ts";
import { type Marks, planParts } from "./parts.ts";
import { planPieces } from "./pieces.ts";
import { planPurchase } from "./purchase/index.ts";
import { planReprint } from "./reprint.ts";
import { planReturns } from "./returns.ts";
import { planRounding } from "./rounding.ts";
import { placeScrews } from "./screw-places.ts";
import { planSensitivity } from "./sensitivity.ts";
import { planSettings, planSizing } from "./settings/index.ts";
import { numberedByGroup } from "./sheets/gates.ts";
import { planBoards, planSheets } from "./sheets/index.ts";
import type { LayoutPiece } from "./sheets/piece.ts";
import { planRack } from "./sheets/rack.ts";
import { type LayoutWishes, planLayoutWishes } from "./sheets/wishes.ts";
import { planSliders } from "./sliders.ts";
import { planSteps } from "./steps/index.ts";
import { markSticks, planSticks } from "./sticks/index.ts";
import { tidy } from "./tidy.ts";
import { planTracks } from "./tracks.ts";
import { withWaiting } from "./waiting.ts";
import { planWorktops } from "./worktops.ts";

/** `olderSet`: its marks are kept; `changedOnly`: and of labels and sticks only what differs from it is printed. */
export type SetOptions = {
  draft: boolean;
  olderSet: DryfitSet | null;
  changedOnly?: boolean;
  /** In place of the job's own. */
  effort?: LayoutEffort | undefined;
  /** Ends the search for better layouts; without it they are always the same. */
  isLate?: () => boolean;
  /** Called for a long search alone: a short one is over before a thread has begun. */
  openThread?: () => Thread;
};

type Models = { exact: Model; printed: Model; marks: Marks };

/** What is to be made: all that the dry fit needs to know. */
export type JoineryPlan = Omit<
  DryfitSet,
  | "layout"
  | "sheets"
  | "boards"
  | "sizing"
  | "sticks"
  | "labels"
  | "rack"
  | "reprint"
  | "finishes"
  | "purchase"
  | "steps"
  | "sensitivity"
>;

/** Throws ProblemsFound where the piece cannot be made: a part too thin to house another, a part larger than any sheet. */
export function planSet(project: Project, options: SetOptions): DryfitSet {
  const models = planModels(project, options.olderSet);
  const planned = planJoinery(project, models, options);
  const laid = planLaid(project, models, planned, options);
  const joinery = { ...planned, parts: asLaid(planned, laid.layout) };
  const paper = planPaper(project, models, joinery, laid, options);
  return tidy({
    ...joinery,
    ...paper,
    checks: [
      ...joinery.checks,
      ...checkRevision({ ...joinery, ...paper }),
      ...checkLayouts({ ...joinery, ...paper, tooling: project.tooling, unit: project.unit }),
    ],
  });
}

export function planModels(project: Project, olderSet: DryfitSet | null): Models {
  const exact = deriveModel(project);
  const printed = roundModel(exact, project);
  const keys = printed.assemblies.flatMap(({ parts }) => parts.map(({ key }) => key));
  return { exact, printed, marks: assignMarks(keys, olderSet) };
}

/** Parts, joints, and the settings that make them. */
export function planJoinery(
  project: Project,
  { exact, printed, marks }: Models,
  { draft, olderSet }: SetOptions,
): JoineryPlan {
  const { unit, step, stock, tooling, paper } = project;
  const bare = planParts(printed, marks, stock, step);
  const assemblies = planAssemblies(printed, marks);
  const wishes = planLayoutWishes(project, { parts: bare, assemblies, stock });
  const parts = bare.map((part) =>
    wishes.grain.get(part.mark) === "none" ? { ...part, grain: "none" as const } : part,
  );
  const doors = planDoors(printed);
  const sliders = planSliders(printed, marks);
  const tracks = planTracks(printed, marks);
  const joints = placeScrews(planJointList(printed, marks, parts), parts, unit);
  const worktops = planWorktops(printed, marks, project);
  const drawers = planDrawers(printed, parts);
  const openings = planOpenings(printed);
  const asBuilt = planAsBuilt(project.asBuilt, assemblies, openings);
  const groups = planGroups({ parts, assemblies, openings, asBuilt, doors, sliders, tracks, drawers, worktops });
  const pieces = planPieces(
    parts,
    stock,
    [...doors, ...sliders.flatMap((one) => one.doors), ...tracks.flatMap((one) => one.doors)],
    { job: { walls: project.walls }, assemblies, worktops },
    withWaiting(wishes, { parts, groups, stock, unit }),
    step,
  );
  const mass = massOf(parts);
  const orders = planOrders({
    parts,
    joints,
    assemblies,
    step,
    finished: finishedGlueUps(printed, marks),
    glue: project.glue,
  });
  const drilling = planDrilling(parts, groups, unit);
  const { settings, settingsCount, noTool } = planSettings({
    parts,
    stock,
    assemblies,
    drilling,
    groups,
    tooling,
    unit,
  });
  return {
    version: 2,
    job: {
      name: project.name,
      ...project.job,
      unit,
      step,
      draft,
      moisture: project.moisture,
      doorway: project.doorway,
      walls: project.walls,
      floorOut: project.floorOut,
    },
    paper,
    stock,
    assemblies,
    openings,
    asBuilt,
    parts,
    pieces,
    joints,
    hardware: planHardware(printed, marks),
    drawers,
    doors,
    sliders,
    tracks,
    worktops,
    groups,
    returns: planReturns(printed, marks),
    settings,
    settingsCount,
    drilling,
    handWork: planHandWork({ parts, settings, unit }),
    orders,
    rounding: planRounding(exact, printed, marks),
    checks: [
      ...checkOrders(orders),
      ...checkGlueUps(orders, { parts, joints, glue: project.glue }),
      ...noTool.map(({ mark, text }) =>
        checkOf("no-tool", "failure", [mark], {
          text,
          rule: "every groove is cut by a tool of the shop, within its reach",
          change: 'add a cutter or bit to the "tooling", or change the joint\'s depth or the stock that enters',
        }),
      ),
      ...planChecks({
        parts: atWeakest(parts, wishes),
        joints,
        assemblies,
        stock,
        settings,
        mass,
        drawers,
        unit,
        step,
        exact,
        printed,
        marks,
        tooling,
        doorway: project.doorway,
        moisture: project.moisture,
        finishes: project.finishes,
        floorOut: project.floorOut,
        doors,
        sliders,
        tracks,
      }),
      ...checkWall({ assemblies, parts, worktops, walls: project.walls, unit }),
      ...checkWorktops({ worktops, pieces, parts, stock, tooling, unit, moisture: project.moisture }),
    ],
    mass,
    lastMark: Math.max(olderSet?.lastMark ?? 0, ...parts.map(({ mark }) => Number(mark))),
  };
}

/** A part that may yet be turned is reckoned with as if it were. */
const atWeakest = (parts: readonly SetPart[], { grain }: LayoutWishes): SetPart[] =>
  parts.map((part) => (grain.has(part.mark) ? { ...part, grain: "none" } : part));

/** Glue-ups that the job declares, as marks: parts by role or by their own id. */
const finishedGlueUps = ({ assemblies }: Model, marks: Marks): string[][] =>
  assemblies
    .filter(({ kind }) => kind === "case")
    .flatMap((one) =>
      one.design.finished.map((names) =>
        one.parts
          .filter(({ key, role }) => names.includes(role) || names.includes(key.slice(one.name.length + 1)))
          .map(({ key }) => marks.get(key)!),
      ),
    );

/** The axis that a cut divides: a rip parts the width. */
const FIRST_AXIS = { rip: "y", crosscut: "x" } as const;

type Laid = Pick<DryfitSet, "layout" | "sheets" | "boards">;

/** What is cut from which sheet or board, and where. */
function planLaid(project: Project, models: Models, joinery: JoineryPlan, options: SetOptions): Laid {
  const { unit, stock, tooling } = project;
  const { seed, levels, first, keep } = project.layout;
  const effort = options.effort ?? project.layout.effort;
  const { early, together } = planLayoutWishes(project, joinery);
  let repeatable = true;
  const thread = effort === "long" ? options.openThread?.() : undefined;
  const how = {
    ...{ stock, kerf: tooling.saw.kerf, unit, seed, effort, levels, keep, lift: tooling.lift, together },
    first: first && FIRST_AXIS[first],
    carry: thread?.carry ?? alone,
    isLate: () => {
      if (options.isLate?.() === true) repeatable = false;
      return !repeatable;
    },
  };
  const piecesOf = (wanted: "panel" | "board"): LayoutPiece[] =>
    joinery.pieces.filter(({ kind }) => kind === wanted).map((piece) => ({ ...piece, early: early.has(piece.mark) }));
  const onSheets = planSheets({ ...how, pieces: piecesOf("panel") });
  const onBoards = planBoards({ ...how, pieces: piecesOf("board") });
  thread?.close();
  failOnLayouts(project, models, [...onSheets.problems, ...onBoards.problems]);
  const wishes = [...onSheets.wishes, ...onBoards.wishes];
  return {
    layout: { seed, effort, levels, first, keep, wishes, repeatable },
    sheets: onSheets.sheets.map((sheet) => numberedByGroup(sheet, joinery.groups)),
    boards: onBoards.sheets,
  };
}

/** A part whose wish for its grain gave way lies across it: nothing on paper may say otherwise. */
function asLaid({ parts, pieces }: JoineryPlan, { wishes }: DryfitSet["layout"]): SetPart[] {
  const lost = wishes.flatMap(({ kind, kept, pieces: ids }) => (kind === "grain" && !kept ? ids : []));
  const across = new Set(pieces.flatMap(({ id, mark }) => (lost.includes(id) ? [mark] : [])));
  return parts.map((part) => (across.has(part.mark) ? { ...part, grain: "none" } : part));
}

/** How it is cut, marked, bought and put together. */
function planPaper(
  project: Project,
  models: Models,
  joinery: JoineryPlan,
  laid: Laid,
  options: SetOptions,
): Omit<DryfitSet, keyof JoineryPlan> {
  const { unit, tooling } = project;
  const { sheets, boards } = laid;
  const changedSince = options.changedOnly === true ? options.olderSet : null;
  const finishes = planFinishes(project.finishes, joinery.parts);
  const reprint =
    changedSince === null ? null : planReprint(tidy(joinery.parts), tidy(markSticks(joinery)), changedSince);
  const labels = planLabels(joinery, reprint, changedSince?.labels);
  return {
    ...laid,
    sizing: planSizing({ ...joinery, sheets }, tooling.saw),
    sensitivity: planSensitivity(project, models, joinery.parts),
    sticks: planSticks(joinery, reprint),
    labels,
    rack: planRack(
      { ...joinery, ...laid },
      labels.filter(({ spot }) => spot !== null).length,
      changedSince?.rack ?? [],
    ),
    reprint,
    finishes,
    purchase: planPurchase({ ...joinery, sheets, boards, finishes, unit, glue: project.glue }),
    steps: planSteps({
      ...{ ...joinery, sheets, boards, finishes, unit, glue: project.glue, throat: tooling.throat },
      shelfLoads: new Map(models.printed.assemblies.map(({ name, design }) => [name, design.shelfLoad])),
    }),
  };
}

/** A part larger than any sheet is named where the project file speaks of it. */
function failOnLayouts(
  project: Project,
  { printed, marks }: Models,
  problems: ReturnType<typeof planSheets>["problems"],
): void {
  if (problems.length === 0) return;
  const parts = printed.assemblies.flatMap((one) => one.parts.map((part) => ({ part, design: one.design.name })));
  throw new ProblemsFound(
    problems.map(({ mark, text, expected, remedy }) => {
      const { part, design } = parts.find((one) => marks.get(one.part.key) === mark)!;
      return {
        level: "error",
        kind: "design",
        where: whereIn(project, part.path),
        found: `the ${part.name} of "${design}", ${text}`,
        expected,
        remedy,
      };
    }),
  );
}
