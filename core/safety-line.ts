/**
 * Carried by the window, the command and every page that is printed.
 * Source: common practice of the trade; that no model or table prevents either sickness: NUMBERS of this
 * project, "Safety".
 */
export const SAFETY_LINE =
  'Plan within your training and certification, analyse every cylinder yourself, follow your dive computer, ' +
  'the operator, local rules and licensed practice. Models and tables do not prevent decompression sickness ' +
  'or oxygen toxicity.';
