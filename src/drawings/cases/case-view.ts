/** A view of a case before it is known which others stand on its drawing, and at what scale. */
import type { Block } from "../draughting/block.ts";
import type { ProjectedView } from "../draughting/projection.ts";

export type ViewKind = "front" | "plan" | "level section" | "plinth" | "side" | "upright section";

/** `draw` is asked first without marks, which move nothing but take long to place. */
export type CaseView = {
  kind: ViewKind;
  stands: ProjectedView["stands"];
  draw: (ratio: number, withMarks: boolean) => Block;
};
