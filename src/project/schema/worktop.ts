/** A worktop as a maker writes it. */
import { z } from "zod";
import { lengthOrZero, says, size, stockId, text } from "./fields.ts";

const edgeSays = says('a list of edges: "front", "back", "left", "right"', 'write it like ["front", "left", "right"]');
const edges = z
  .array(z.enum(["front", "back", "left", "right"], edgeSays), edgeSays)
  .min(1, edgeSays)
  .max(4, edgeSays);
const overSays = says("a list of one or more names of cases", 'write it like ["bench"]');
const MOST_BOARDS = 26;
const boardsSays = says(`a whole number of boards from 1 to ${MOST_BOARDS}`, "write it like 5, or leave it out");

export const worktop = z
  .strictObject({
    name: text.optional().describe('what it is called; "worktop" when left out'),
    over: z.array(text, overSays).min(1, overSays).max(50, overSays).describe("cases it lies on, by name"),
    stock: stockId("id of a stock: boards are glued up, of a sheet it is cut"),
    overhang: z
      .strictObject({
        front: lengthOrZero.optional().describe("beyond the face frame, or the case where it has none"),
        back: lengthOrZero.optional(),
        left: lengthOrZero.optional(),
        right: lengthOrZero.optional(),
      })
      .optional()
      .describe("how far it stands out beyond what it lies on"),
    boards: z
      .number(boardsSays)
      .int(boardsSays)
      .min(1, boardsSays)
      .max(MOST_BOARDS, boardsSays)
      .optional()
      .describe("how many boards are glued up; as few as the boards and the jointer allow when left out"),
    sawn: z
      .enum(["flat", "quarter"], says('"flat" or "quarter"', "choose one of the two"))
      .optional()
      .describe("how its boards are sawn from the log: quarter-sawn ones move less; flat when left out"),
    lipping: z
      .strictObject({ name: text, thickness: size, edges: edges.optional() })
      .optional()
      .describe("strips on the edges of one cut from a sheet; front, left and right when no edges are named"),
    edge: z
      .strictObject({
        shape: z.enum(
          ["roundover", "chamfer", "ogee"],
          says('"roundover", "chamfer" or "ogee"', "choose one of the three"),
        ),
        radius: size.describe("of the roundover, of each half of the ogee; of a chamfer, what it takes off each face"),
        edges: edges.optional().describe("front, left and right when left out"),
      })
      .optional()
      .describe("shape of its upper edges"),
    fixed: z
      .enum(["front", "back"], says('"front" or "back"', "choose one of the two"))
      .optional()
      .describe("the line it is screwed to without play: it moves away from there; front when left out"),
    screws: z
      .strictObject({
        diameter: size.optional().describe("of the shank, by calliper"),
        length: size.optional().describe("as long as the wood allows when left out"),
      })
      .optional()
      .describe("that hold it from below"),
  })
  .describe("what lies on cases: an assembly of its own, of boards glued up or of a sheet");

export type WorktopFile = z.infer<typeof worktop>;
