/** The cells of the table of divers: what each says, and what may be typed into it. */
import type { Diver, Group } from '../../../core/document/types';
import { toUnit, type System } from '../../../core/words/quantity';
import { said, type Said } from '../../../core/words/said';
import { cylinderText, shortText, valueText } from '../../figures/format';
import { parseFigure, parseNumber, parseShare, type Parsed } from '../../figures/parse';
import { parseCylinder } from '../../figures/parse-cylinder';

/** A cell that is typed, by its column. */
export const DIVER_FIELDS = [
  'name',
  'certification',
  'rate',
  'cylinder',
  'cylinderNo',
  'fill',
  'reserve',
  'depth',
  'ceiling',
  'po2',
  'gradient',
  'group',
] as const;

export type DiverField = (typeof DIVER_FIELDS)[number];

/** What a cell says: so it is read, copied, filled down and edited from. */
export function cellText(diver: Diver, field: DiverField, units: System): string {
  const { cylinder, po2, gradient, group } = diver;
  switch (field) {
    case 'name':
      return diver.name;
    case 'certification':
      return diver.certification ?? '';
    case 'rate':
      // Cubic feet to the hundredth in every row, so that 0.60 and 0.42 stand under each other.
      return units === 'imperial'
        ? valueText(diver.surfaceRateLpm, 'gas-rate', units, 'near', 2)
        : shortText(diver.surfaceRateLpm, 1);
    case 'cylinder':
      return cylinderText(cylinder, units);
    case 'cylinderNo':
      return diver.cylinderNo ?? '';
    case 'fill':
      return valueText(cylinder.fillBar, 'pressure', units, 'down');
    case 'reserve':
      return valueText(cylinder.reserveBar, 'pressure', units, 'near');
    case 'depth':
      return shortText(toUnit(diver.maxDepthM, 'depth', units), units === 'imperial' ? 0 : 1, 'down');
    case 'ceiling':
      return shortText(diver.maxO2 * 100, 1, 'down');
    case 'po2':
      return `${shortText(po2.working, 2)}/${shortText(po2.contingency, 2)}`;
    case 'gradient':
      return `${shortText(gradient.low * 100, 1)}/${shortText(gradient.high * 100, 1)}`;
    case 'group':
      return group === undefined ? '' : groupText(group);
  }
}

/** "Second boat, +10 min". */
export function groupText({ name, afterMin }: Group): string {
  return afterMin === 0 ? name : `${name}, +${shortText(afterMin, 1)} min`;
}

/** A change of a diver that a cell asks for. */
export type DiverChange = (diver: Diver) => Diver;

function refusal({ what, mend }: { readonly what: string; readonly mend: string }): Said {
  return said`${what} ${mend}`;
}

function changing<T>(parsed: Parsed<T>, change: (value: T) => DiverChange): Said | DiverChange {
  return parsed.ok ? change(parsed.value) : refusal(parsed);
}

/** Two figures with a stroke between, "1.4/1.6"; one alone is the first. */
function pair(
  text: string,
  parse: (part: string) => Parsed<number>,
): Parsed<readonly [number, number | null]> {
  const parts = text.split(/[/–]/);
  if (parts.length > 2)
    return { ok: false, what: `“${text}” has more than two figures.`, mend: 'Type two, as 50/85.' };
  const [one, two] = parts.map((part) => parse(part));
  if (!one!.ok) return one!;
  if (two === undefined) return { ok: true, value: [one!.value, null] };
  return two.ok ? { ok: true, value: [one!.value, two.value] } : two;
}

/** An optional text: an empty one is taken out. */
function optional(key: 'certification' | 'cylinderNo', text: string): DiverChange {
  return (diver) => {
    const { [key]: _, ...rest } = diver;
    return text === '' ? rest : { ...rest, [key]: text };
  };
}

function withoutComma(name: string): string {
  return name.endsWith(',') ? name.slice(0, -1).trim() : name;
}

function withoutMin(text: string): string {
  return text.toLowerCase().endsWith('min') ? text.slice(0, -3).trim() : text;
}

/**
 * "Second boat +10": the name of a group and, behind a plus, its minutes after the start; those of the group as it
 * is where none are typed.
 */
function groupOf(text: string, party: readonly Diver[]): Said | DiverChange {
  const plus = text.lastIndexOf('+');
  const name = withoutComma((plus === -1 ? text : text.slice(0, plus)).trim());
  if (name === '') {
    if (plus !== -1) return said`A group has a name. Type it before the minutes, as Second boat +10.`;
    return (diver) => {
      const { group: _, ...rest } = diver;
      return rest;
    };
  }
  const known = party.find(({ group }) => group?.name === name)?.group?.afterMin ?? 0;
  if (plus === -1) return (diver) => ({ ...diver, group: { name, afterMin: known } });
  const minutes = parseNumber(withoutMin(text.slice(plus + 1).trim()));
  return changing(minutes, (afterMin) => (diver) => ({ ...diver, group: { name, afterMin } }));
}

function put(patch: Partial<Diver>): DiverChange {
  return (each) => ({ ...each, ...patch });
}

function gear(patch: Partial<Diver['cylinder']>): DiverChange {
  return (each) => ({ ...each, cylinder: { ...each.cylinder, ...patch } });
}

/**
 * What a text asks of a diver.
 * @param party whose groups are known @returns the change, or why the text cannot be read
 */
export function readDiverCell(
  text: string,
  field: DiverField,
  diver: Diver,
  { units, party }: { readonly units: System; readonly party: readonly Diver[] },
): Said | DiverChange {
  switch (field) {
    case 'name':
      return put({ name: text.trim() });
    case 'certification':
    case 'cylinderNo':
      return optional(field, text.trim());
    case 'rate':
      return changing(parseFigure(text, 'gas-rate', units), (surfaceRateLpm) => put({ surfaceRateLpm }));
    case 'cylinder':
      return changing(parseCylinder(text, units, diver.cylinder.fillBar), ({ waterL, fillBar }) =>
        gear(fillBar === null ? { waterL } : { waterL, fillBar }),
      );
    case 'fill':
      return changing(parseFigure(text, 'pressure', units), (fillBar) => gear({ fillBar }));
    case 'reserve':
      return changing(parseFigure(text, 'pressure', units), (reserveBar) => gear({ reserveBar }));
    case 'depth':
      return changing(parseFigure(text, 'depth', units), (maxDepthM) => put({ maxDepthM }));
    case 'ceiling':
      return changing(parseShare(text), (maxO2) => put({ maxO2 }));
    case 'po2':
      return changing(pair(text, parseNumber), ([working, other]) => (each) => ({
        ...each,
        po2: { working, contingency: other ?? each.po2.contingency },
      }));
    case 'gradient':
      return changing(pair(text, parseShare), ([low, other]) => (each) => ({
        ...each,
        gradient: { low, high: other ?? each.gradient.high },
      }));
    case 'group':
      return groupOf(text.trim(), party);
  }
}

/** Names typed or pasted in one cell: with commas, semicolons or one a line. */
export function namesIn(text: string): readonly string[] {
  return text
    .split(/[,;\n]/)
    .map((name) => name.trim())
    .filter((name) => name !== '');
}
