/** How a node of a sheet being filled lies in an array of numbers. */

// Words of a node.
export const KIND = 0; // of a part: twice its type, plus 1 when turned
export const PARENT = 1;
export const FIRST = 2; // child
export const NEXT = 3; // sibling, or next dead node
export const WASTE_AT = 4; // of a cut: its child that is waste, or none; of waste: its place in the sheet's list of waste
export const LEVEL = 5; // cuts above it
export const WORDS = 6;

// Sizes of a node or of a leaf, in an array beside: whole numbers that may be too large for 32 bits.
export const X = 0; // extent along the sheet's length
export const Y = 1;
export const SIZES = 2;
export const SHORT = 2; // the shorter of them, of a leaf
export const SPARE = 3;

export const WASTE = -1;
export const CUT_X = -2; // children side by side along the length
export const CUT_Y = -3;
export const DEAD = -4;
export const NONE = -1;
