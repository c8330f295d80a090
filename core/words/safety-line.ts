import { said, type Said } from './said';

/** Source: that no model or table prevents either sickness: CONVENTIONS, "Safety". */
const NO_PROMISE = said`Models and tables do not prevent decompression sickness or oxygen toxicity.`;

/**
 * Carried by the window, the command and every page that is printed; the same cautions as `SAFETY_SENTENCES`.
 * Source: common practice of the trade.
 */
export const SAFETY_LINE = said`Plan within your training and certification, analyse every cylinder yourself, follow your dive computer, the operator, local rules and licensed practice. ${NO_PROMISE}`;

/** The cautions one by one, for where a person accepts them or looks them up. Source: as in the line. */
export const SAFETY_SENTENCES: readonly Said[] = [
  said`Plan within your training and certification.`,
  said`Analyse every cylinder yourself, and label it with what you read.`,
  said`Follow your dive computer, the operator, local rules and licensed practice; where they and this plan differ, go by the more conservative.`,
  NO_PROMISE,
];
