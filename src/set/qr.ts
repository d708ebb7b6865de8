/** QR codes as a matrix of dark and light. The plan asks whether a text fits its label, the drawing draws the same matrix. */
import QRCode from "qrcode";

/** Restores 15 % of a scuffed code (ISO/IEC 18004). */
const LEVEL = "M";

/** Light modules that must surround a code (ISO/IEC 18004). */
export const QUIET_ZONE = 4;

export type QrMatrix = { modules: number; isDark: (row: number, column: number) => boolean };

/** Null where no QR code of any size holds the text. */
export function qrMatrix(text: string): QrMatrix | null {
  if (new TextEncoder().encode(text).length > MOST_BYTES) return null;
  const { modules } = QRCode.create(text, { errorCorrectionLevel: LEVEL });
  return { modules: modules.size, isDark: (row, column) => modules.get(row, column) !== 0 };
}

/** Version 40, level M, byte mode (ISO/IEC 18004, table of capacities). */
const MOST_BYTES = 2331;
