/** A QR code as one path with one fill: separate squares leave light seams that some readers stumble over. */
import type { Mm } from "../../base/length.ts";
import { fill, rectSteps } from "../../paper/draw.ts";
import type { PathStep, Shape } from "../../paper/shape.ts";
import { type LabelFormat, moduleSize } from "../../set/label-page.ts";
import { QUIET_ZONE, qrMatrix } from "../../set/qr.ts";

/** The code with its quiet zone, from the upper left corner of the quiet zone. */
export function drawQr(format: LabelFormat, said: string): { shapes: Shape[]; side: Mm } {
  const matrix = qrMatrix(said);
  const module = matrix === null ? null : moduleSize(format, matrix.modules);
  if (matrix === null || module === null) throw new Error(`Internal error: no label was planned to say "${said}"`);
  const steps: PathStep[] = [];
  for (let row = 0; row < matrix.modules; row++) {
    for (let column = 0; column < matrix.modules; column++) {
      if (!matrix.isDark(row, column)) continue;
      const start = column;
      while (column + 1 < matrix.modules && matrix.isDark(row, column + 1)) column++;
      steps.push(
        ...rectSteps({
          x: (QUIET_ZONE + start) * module,
          y: (QUIET_ZONE + row) * module,
          width: (column + 1 - start) * module,
          height: module,
        }),
      );
    }
  }
  return { shapes: [fill(0, steps)], side: (matrix.modules + 2 * QUIET_ZONE) * module };
}
