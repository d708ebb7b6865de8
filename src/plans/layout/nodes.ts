/** How a node of a sheet being filled lies in an array of numbers. */

// Words of a node.
export const KIND = 0; // of a part: twice its type, plus 1 when turned
export const X = 1; // extent along the sheet's length
export const Y = 2;
export const PARENT = 3;
export const FIRST = 4; // child
export const NEXT = 5; // sibling, or next dead node
export const WASTE_AT = 6; // of a cut: its child that is waste, or none; of waste: its place in the sheet's list of waste
export const LEVEL = 7; // cuts above it
export const WORDS = 8;

export const WASTE = -1;
export const CUT_X = -2; // children side by side along the length
export const CUT_Y = -3;
export const DEAD = -4;
export const NONE = -1;

/** Sizes may be too large for 32 bits. */
export type Numbers = Int32Array | Float64Array;
