/** Writes the sample document in both forms and prints what came out, for a test that runs this in another time zone. */
import { createHash } from "node:crypto";
import { writePdf } from "../../../src/writers/pdf.ts";
import { writeSvg } from "../../../src/writers/svg.ts";
import { sampleDocument, samplePage } from "../../fixtures/sample-document.ts";

const digest = (data: Uint8Array | string): string => createHash("sha256").update(data).digest("hex");

const pdf = await writePdf(sampleDocument);
const svg = writeSvg(samplePage, { embedFont: true, idPrefix: "first-" });
console.log(JSON.stringify({ offset: new Date(2026, 10, 20).getTimezoneOffset(), pdf: digest(pdf), svg: digest(svg) }));
