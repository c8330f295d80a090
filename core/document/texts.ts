import { said, type Said, type SaidTrouble } from '../words/said';
import { shown } from './fields';

/** What a text of the trip may be. */
interface TextRule {
  readonly label: Said;
  /** Characters. */
  readonly max: number;
  /** Whether something must be written. */
  readonly isAsked: boolean;
  /** Whether it may have line breaks and tabs. */
  readonly hasLines: boolean;
}

/**
 * Every text of a trip file: as long as slates and lists can hold, and for notes what a person writes.
 * Source: this project's own.
 */
export const TEXT_RULES = {
  id: { label: said`Id`, max: 100, isAsked: true, hasLines: false },
  name: { label: said`Name`, max: 80, isAsked: true, hasLines: false },
  title: { label: said`Title`, max: 120, isAsked: true, hasLines: false },
  eventTitle: { label: said`Event`, max: 80, isAsked: true, hasLines: false },
  place: { label: said`Place`, max: 120, isAsked: false, hasLines: false },
  siteNotes: { label: said`Notes`, max: 4000, isAsked: false, hasLines: true },
  planB: { label: said`Plan B`, max: 400, isAsked: false, hasLines: true },
  briefing: { label: said`Note for the briefing`, max: 1000, isAsked: false, hasLines: true },
  certification: { label: said`Certification`, max: 120, isAsked: false, hasLines: false },
  cylinderNo: { label: said`Number of the cylinder`, max: 20, isAsked: false, hasLines: false },
  groupName: { label: said`Name of the group`, max: 60, isAsked: true, hasLines: false },
  reason: { label: said`Reason`, max: 200, isAsked: false, hasLines: false },
  currency: { label: said`Currency`, max: 8, isAsked: false, hasLines: false },
  emergency: { label: said`Emergency`, max: 120, isAsked: false, hasLines: false },
  notes: { label: said`Notes`, max: 20_000, isAsked: false, hasLines: true },
} as const satisfies Record<string, TextRule>;

export type TextField = keyof typeof TEXT_RULES;

/**
 * Line breaks other than in notes; signs that steer a terminal or turn the direction of what follows; halves
 * of a letter; code points that no text is exchanged with, as some formats cannot write them. Source: Unicode, categories
 * Cc, Zl, Zp and Cs, property Noncharacter_Code_Point; U+202D and U+202E override the direction.
 */
const LINE_BREAK = /[\n\r\u2028\u2029]/;
const UNFIT = /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\p{NChar}\u202D\u202E]/u;
const UNFIT_IN_LINES = /(?![\t\n\r])[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\p{NChar}\u202D\u202E]/u;

/** Spaces, signs without width, fillers: a name of these alone names nothing. Source: Unicode, property DI. */
const UNSEEN = /^[\s\p{DI}\p{Cf}\p{Mn}\u2800]*$/u;

function code(letter: string): string {
  return `U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;
}

/** A piece of somebody's text, short enough for a message. Source: this project's own. */
export function excerpt(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}...` : text;
}

/**
 * Judges one text of the document, for the schema, a field of the window and a list of sites alike: its
 * length first, so that no text is too long to be judged.
 * @param field which text @param value anything at all @param label what it is called where the rule's name
 *   does not fit
 * @returns null where it may stand; else what is wrong and how to mend it
 * Source: as `TEXT_RULES`.
 */
export function textTrouble(
  field: TextField,
  value: unknown,
  label: Said = TEXT_RULES[field].label,
): SaidTrouble | null {
  const { max, isAsked, hasLines }: TextRule = TEXT_RULES[field];
  if (typeof value !== 'string') {
    return {
      what: value === undefined ? said`${label} is missing.` : said`${label} is ${shown(value)}, not text.`,
      mend: said`Write it as text in quotation marks.`,
    };
  }
  if (value.length > max) {
    return {
      what: said`${label} has ${String(value.length)} characters; it can have ${String(max)}.`,
      mend: hasLines ? said`Shorten it.` : said`Shorten it; longer text fits into the notes.`,
    };
  }
  const unfit = (hasLines ? UNFIT_IN_LINES : UNFIT).exec(value);
  if (unfit !== null) {
    return LINE_BREAK.test(unfit[0])
      ? { what: said`${label} has a line break in it.`, mend: said`Write it on one line.` }
      : {
          what: said`${label} has a sign in it that cannot be shown (${code(unfit[0])}).`,
          mend: said`Type it again, without that sign.`,
        };
  }
  if (isAsked && UNSEEN.test(value)) {
    return {
      what:
        value.trim() === '' ? said`${label} is empty.` : said`${label} has nothing in it that can be seen.`,
      mend: said`Write at least one letter.`,
    };
  }
  return null;
}
