/** All that could steer a terminal: controls but the line feed, and what breaks or turns a line. */
const STEERING = /(?!\n)[\p{Cc}\p{Zl}\p{Zp}\u202D\u202E]/gu;

/**
 * Text as it may go to a terminal: what steers one is written as JSON would escape it. Names and ids of a trip
 * hold none of it; a path, an option or a file that was refused may.
 * @param text anything; of JSON the value stays the same
 */
export function printable(text: string): string {
  return text.replaceAll(STEERING, (sign) => `\\u${sign.codePointAt(0)!.toString(16).padStart(4, '0')}`);
}
