/** What part of the piece a part is. */

export type Role =
  | "side"
  | "bottom"
  | "top"
  | "divider"
  | "shelf"
  | "back"
  | "kick"
  | "stretcher"
  | "filler"
  | "looseShelf"
  | "plinth"
  | FrameRole
  | DrawerRole
  | DoorRole
  | "worktop";

/** Members of a face frame, and of its returns round the ends of the case, of solid wood. */
export type FrameRole = "stile" | "rail" | ReturnRole;
export type ReturnRole = "return" | "returnStrip";

/** Parts of a drawer, and what is fixed beside its opening to carry it: of panels or of solid wood. */
export type DrawerRole =
  | "drawerFront"
  | "drawerSide"
  | "drawerBack"
  | "drawerBottom"
  | "drawerFace"
  | "packing"
  | "runner";

/** Parts of a door: of solid wood or of a panel, as the door's own stock says. */
export type DoorRole = "doorStile" | "doorRail" | "doorPanel" | "slab";

/** Every other part is cut from a panel, and its stock named with the case's. */
export type PanelRole = Exclude<Role, FrameRole | DrawerRole | DoorRole | "worktop">;

/** Every role, and its name on paper. */
export const ROLE_NAMES: Record<Role, string> = {
  side: "side",
  bottom: "bottom",
  top: "top panel",
  divider: "divider",
  shelf: "shelf",
  back: "back",
  kick: "kick",
  stretcher: "stretcher",
  filler: "filler strip",
  looseShelf: "loose shelf",
  plinth: "plinth",
  stile: "stile",
  rail: "rail",
  return: "side return",
  returnStrip: "return strip",
  drawerFront: "drawer front",
  drawerSide: "drawer side",
  drawerBack: "drawer back",
  drawerBottom: "drawer bottom",
  drawerFace: "applied front",
  packing: "packing strip",
  runner: "runner",
  doorStile: "door stile",
  doorRail: "door rail",
  doorPanel: "door panel",
  slab: "slab",
  worktop: "worktop",
};

export const ROLES = Object.keys(ROLE_NAMES) as Role[];
