/** The rule behind each failure of the dry fit, by the failure's id; a failure without one is plain wood in the wrong place. */
export const RULES: Readonly<Record<string, string>> = {
  "groove-depth": "A groove is at most half the nominal thickness deep (common practice, no source).",
  "groove-width": "A groove is as wide as the thickest reading of what enters it, and the fit allowance.",
  "groove-fill": "A groove is filled by what enters it, but for the run-outs that are named.",
  wall: "The wall at the lower, left or front face of what enters is exact; the allowance lies at the other.",
  seat: "An end rests on the floor of its groove; rounding opens it by one step at most.",
  slip: "A back, or a door's panel, stands off the floor of its groove by its slip, and by one rounding step more at most.",
  reach: "An end that meets a face touches it; rounding opens it by one step at most.",
  flush: "What is flush with the outside of a case stays back from it by one rounding step at most.",
  "frame-cover": "A face frame hides the front edges that it is made to hide (common practice, no source).",
  return: "A face frame goes round an end of its case without a gap: both slopes of a mitre at 45 degrees.",
  notch: "A notch is as large as what it clears, and by one rounding step larger at most.",
  feet: "A foot stands under the case, on a hole for its stem.",
  skirting: "A piece passes the skirting of the wall by notches in its sides, or stands off the wall by it.",
  "drawer-clearance":
    "Slides need their own room beside the box: side-mounted 1/2 in, 12.7 mm, a side; undermount as their maker says.",
  "drawer-free": "What is free round a drawer's box is what the paper says.",
  "drawer-front":
    "An inset front has its gap all round and is flush; an overlay front covers what is round its opening.",
  "drawer-box": "A drawer's walls end level: it stands flat on the bench, and looks it.",
  "drawer-travel": "Drawn out by the length of its slides, a drawer passes everything that stands beside it.",
  "drawer-slide": "A slide is screwed to wood along its whole length, on the line that its box asks for.",
  "drawer-sum": "The opening less what the slides take is the box.",
  "whole-steps": "A length that is set out is a whole number of rounding steps.",
  "door-gap": "A door keeps the gap or the overlap that is asked for, even all round, to within one rounding step.",
  "door-swing": "A door opens as far as its hinges do, and touches nothing on its way.",
  slider:
    "A sliding door stands on the floor of its lower groove and is held above by upper depth - lower depth - what is to spare: 4 mm, 5/32 in, or more (common practice, no source).",
  "slider-groove":
    "Grooves for sliding doors are 6 mm or more apart and wider than the door's edge by the play that is stated (Fine Woodworking 2004), above each other, and hidden beyond their bay.",
  "slider-sum": "By-passing doors: each = (opening + (n - 1) x overlap) / n.",
  "slider-travel": "A sliding door goes from one end of its travel to the other and touches nothing on its way.",
  "slider-lift": "A sliding door goes in leaning, upper end first, is turned upright under its groove, and let down.",
  "doors-meet": "Two doors that are open at once keep clear of each other (common practice, no source).",
  "track-length":
    "A track is as long as the way of its doors and, at both ends, what lies between its end and a door's edge at the stop: half length = door + stop from the track's end - hanger from the door's edge + half the bumper (a hardware maker's planning sheet).",
  "track-lap": "A door off the face is wider than its opening by the overlap on each side (trade magazines).",
  "track-bolt":
    "Solid wood behind every bolt of a track (trade magazines), one and a half diameters round its middle (National Design Specification for Wood Construction 2018, table 12.5.1C; from memory).",
  "track-guide": "A hanging door has a guide below it wherever it stands (common practice, no source).",
  "track-way": "A door slides from end to end of its way and touches nothing.",
  "track-lift": "A door is lifted over its track to be hung (common practice, no source).",
  "worktop-fixed":
    "Solid wood is fixed along one line, so that it moves away from there (Fine Woodworking 2024); fixed along two it splits.",
  "worktop-slot":
    "A slot goes through, lies across the worktop's grain and is as long as the screw's diameter and the movement over its own distance from the fixed line: width x coefficient x points of moisture (Wood Handbook 2010, chapter 13).",
  "worktop-screw":
    "A screw goes through wood, holds in the worktop, and does not come near its upper face (common practice, no source).",
  lap: "What is halved is filled by what is halved with it: the two together are as thick as one.",
  dovetail:
    "The tails of one part fill the sockets of the other from their ends to their roots, and are wider at their ends, so that they are not drawn out.",
  tenon:
    "A loose tenon lies in two mortises in line; the first of a joint is tight, the others are slotted, so that the members still come flush (common practice, no source).",
  "tenon-wood": "Beside a mortise, and behind it, wood is left (common practice, no source).",
  sums: "The clear size and what goes in at both ends make the cut size.",
};
