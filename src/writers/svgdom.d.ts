/** The part of svgdom, which has no typings, that the SVG writer uses. */
declare module "svgdom" {
  export function createSVGWindow(): { document: { documentElement: object } };
}
