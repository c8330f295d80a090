/** A caution that stands with every plan: what to do, as it is joined into the line, and what is added where there is room. */
interface Clause {
  readonly says: string;
  readonly adds?: string;
}

/** Source: common practice of the trade. */
const CLAUSES: readonly Clause[] = [
  { says: 'plan within your training and certification' },
  { says: 'analyse every cylinder yourself', adds: ', and mark it with what you measured' },
  {
    says: 'follow your dive computer, the operator, local rules and licensed practice',
    adds: '; where this plan and they disagree, the more careful holds',
  },
];

/** Source: that no model or table prevents either sickness: CONVENTIONS, "Safety". */
const NO_PROMISE = 'Models and tables do not prevent decompression sickness or oxygen toxicity.';

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/**
 * Carried by the window, the command and every page that is printed; the same cautions as `SAFETY_SENTENCES`.
 * Source: as the clauses.
 */
export const SAFETY_LINE = `${sentence(CLAUSES.map(({ says }) => says).join(', '))} ${NO_PROMISE}`;

/** The cautions one by one, for where a person accepts them or looks them up. Source: as the clauses. */
export const SAFETY_SENTENCES: readonly string[] = [
  ...CLAUSES.map(({ says, adds = '' }) => sentence(says + adds)),
  NO_PROMISE,
];
