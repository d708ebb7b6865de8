/** A drawing of one name on as many drawings as it takes. */
import type { Shape } from "../../paper/shape.ts";
import type { Draft } from "./draft.ts";

/** "Cut list" alone, or "Cut list 1 of 3" under one bookmark. */
export const numberDrafts = (key: string, name: string, drawings: readonly Shape[][]): Draft[] =>
  drawings.map((shapes, i) => {
    const isOne = drawings.length === 1;
    const numbered = isOne ? name : `${name} ${i + 1} of ${drawings.length}`;
    return {
      key: isOne ? key : `${key}-${i + 1}`,
      name: numbered,
      bookmark: isOne ? [name] : [name, numbered],
      scale: null,
      shapes,
    };
  });
