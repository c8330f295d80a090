/** The cards of a print-out: whose they are, and which dives stand on which of their faces. */
import { assert } from '../../result';
import { inOneSystem, wordsOf, type Words } from '../../words/reader';
import { said } from '../../words/said';
import { SAFETY_LINE } from '../../words/safety-line';
import { space, stack, tagged, type Block, type Setter } from '../layout';
import { footBlock, type FootCaution } from '../card-foot';
import { type Card, type Face, type FaceSpace } from '../card-sheets';
import { unmarked } from '../markup';
import { slateReader } from '../reading';
import type { CardForm, SlateRequest } from '../request';
import { diveWays, writeLines, WRITE_LEAST, type Way } from './block';
import { cardDays, type CardDay, type CardDive } from './content';
import { measureOf, type Measure } from './measure';
import { oneDive } from './one';
import { blockOf, lines, penOf, put, TYPES, widthMm, type Pen } from './pen';
import { shortDive } from './short';

interface NamedDay {
  readonly names: readonly string[];
  readonly day: CardDay;
}

/** A card with those whose it is, and all its words once somebody else's might be the same. */
interface SharedDay extends NamedDay {
  readonly names: string[];
  text: string | null;
}

/** Days in the order of the calendar, divers in that of the party; who has the same card word for word shares it. */
function sharedDays(request: SlateRequest, dates: readonly string[]): readonly NamedDay[] {
  const { ledger, cautions, diverIds } = request;
  // Whole cards are long to compare: those alone are whose heads say the same.
  const byHead = new Map<string, SharedDay[]>();
  const days: SharedDay[] = [];
  for (const mine of ledger.divers) {
    if (diverIds !== null && !diverIds.includes(mine.diver.id)) continue;
    for (const day of cardDays(ledger.trip, mine, dates, cautions, request)) {
      const head = [day.date, ...day.oxygen].join('\n');
      const alike = byHead.get(head) ?? [];
      byHead.set(head, alike);
      const text = alike.length === 0 ? null : JSON.stringify(day);
      const known = alike.find((each) => (each.text ??= JSON.stringify(each.day)) === text);
      if (known !== undefined) {
        known.names.push(unmarked(mine.diver.name));
        continue;
      }
      const made: SharedDay = { names: [unmarked(mine.diver.name)], day, text };
      alike.push(made);
      days.push(made);
    }
  }
  return days.toSorted((a, b) => (a.day.date < b.day.date ? -1 : a.day.date > b.day.date ? 1 : 0));
}

/** Names are never cut or set smaller: they take the lines they need. */
export function headBlock(pen: Pen, { names, day }: NamedDay, right: string, width: number): Block {
  const data = [...day.oxygen, ...(day.flying === '' ? [] : [day.flying])];
  const rows: string[][] = [[]];
  let x = widthMm(pen, day.day, TYPES.day) + 2.4;
  const end = width - (right === '' ? 0 : widthMm(pen, right, TYPES.caption) + 2);
  for (const text of data) {
    const wide = widthMm(pen, text, TYPES.caption);
    if (x + wide > (rows.length === 1 ? end : width) && x > 0) {
      rows.push([]);
      x = 0;
    }
    rows[rows.length - 1]!.push(text);
    x += wide + 2.4;
  }
  return stack([
    tagged(lines(pen, names.join(', '), TYPES.who, width, 5), { is: 'H1' }),
    ...rows.map((texts, r) => {
      let at = r === 0 ? widthMm(pen, day.day, TYPES.day) + 2.4 : 0;
      const draws = texts.map((text) => {
        const left = at;
        at += widthMm(pen, text, TYPES.caption) + 2.4;
        return put(pen, text, TYPES.caption, { x: left, y: 0, pitch: 4.4 });
      });
      if (r > 0) return blockOf(pen, 3.6, draws);
      return blockOf(pen, 4.4, [
        put(pen, day.day, TYPES.day, { x: 0, y: 0, pitch: 4.4 }),
        ...draws,
        ...(right === ''
          ? []
          : [put(pen, right, TYPES.caption, { x: width, y: 0, pitch: 4.4, align: 'right' })]),
      ]);
    }),
  ]);
}

/** The dives of a face before it is known what its head and foot say. */
interface FaceDraft {
  readonly dives: readonly { readonly index: number; readonly block: Block }[];
}

/** The first way of which every part is low enough. */
function firstFitting(ways: readonly Way[], availablePt: number): readonly Block[] | null {
  for (const way of ways) {
    const blocks = way();
    if (blocks.every(({ heightPt }) => heightPt <= availablePt)) return blocks;
  }
  return null;
}

/** As many dives a face as fit and are wanted, each with a line to write on; null where a part of one is too high. */
function facesOf(
  pen: Pen,
  dives: readonly (readonly Way[])[],
  availablePt: number,
  { most, writes }: FormOf,
): readonly FaceDraft[] | null {
  const faces: FaceDraft[] = [];
  const line = writes ? WRITE_LEAST * pen.mm : 0;
  const usedOn = (face: FaceDraft): number =>
    face.dives.reduce((sum, { block }) => sum + block.heightPt + line, 0);
  for (const [index, ways] of dives.entries()) {
    const way = firstFitting(ways, availablePt - line);
    if (way === null) return null;
    for (const block of way) {
      const last = faces[faces.length - 1];
      if (
        last === undefined ||
        way.length > 1 ||
        last.dives.length === most ||
        usedOn(last) + block.heightPt + line > availablePt
      ) {
        faces.push({ dives: [{ index, block }] });
      } else faces[faces.length - 1] = { dives: [...last.dives, { index, block }] };
    }
  }
  return faces;
}

/** "overleaf 3, 4" where there is one other face, "1 of 3" where there are more. */
function turnWords(words: Words, drafts: readonly FaceDraft[], at: number, day: CardDay): string {
  if (drafts.length < 2) return '';
  if (drafts.length > 2) return words(said`${at + 1} of ${drafts.length}`);
  const others = drafts[1 - at]!.dives.map(({ index }) => day.dives[index]!.number).join(', ');
  return words(said`overleaf ${others}`);
}

interface CardDraft {
  readonly shared: NamedDay;
  readonly drafts: readonly FaceDraft[];
}

interface FormOf {
  /** Dives a face. */
  readonly most: number;
  /** Each dive has at least a line to write on. */
  readonly writes: boolean;
}

/** Four dives on a face have to give up the grid and the lines. */
const FORMS: Readonly<Record<CardForm, FormOf>> = {
  full: { most: 2, writes: true },
  short: { most: Infinity, writes: false },
  dive: { most: 1, writes: true },
};

/** The ways a dive may stand on faces. */
function waysOf(pen: Pen, form: CardForm, dive: CardDive, measure: Measure): readonly Way[] {
  if (form === 'short') return shortDive(pen, dive, measure.width);
  return form === 'dive' ? oneDive(pen, dive, measure.width) : diveWays(pen, dive, measure);
}

function cardDrafts(
  pen: Pen,
  words: Words,
  request: SlateRequest,
  dates: readonly string[],
  face: FaceSpace,
  isEven: boolean,
): readonly CardDraft[] | null {
  const width = face.widthPt / pen.mm;
  const measure = measureOf(width, request.units);
  const footPt = (which: FootCaution): number => footBlock(pen, words, which, '8888', width).heightPt;
  const usualFootPt = Math.max(footPt('do'), footPt('no promise'));
  const made: CardDraft[] = [];
  for (const shared of sharedDays(request, dates)) {
    const blocks = shared.day.dives.map((dive) => waysOf(pen, request.card, dive, measure));
    const head = headBlock(pen, shared, words(said`overleaf ${'8, 8'}`), width);
    const available = face.heightPt - head.heightPt;
    let drafts = facesOf(pen, blocks, available - usualFootPt, FORMS[request.card]);
    // A face alone carries both lines of caution.
    if (drafts?.length === 1 && !isEven) {
      drafts = facesOf(pen, blocks, available - footPt('both'), FORMS[request.card]);
    }
    if (drafts === null) return null;
    made.push({ shared, drafts });
  }
  return made;
}

/** A face with what stands on it, the free height given to lines to write on. */
function faceBody(
  pen: Pen,
  head: Block,
  foot: Block,
  { dives }: FaceDraft,
  asDived: readonly (readonly string[])[],
  face: FaceSpace,
  form: FormOf,
): Block | null {
  const width = face.widthPt / pen.mm;
  const used = dives.reduce((sum, { block }) => sum + block.heightPt, head.heightPt + foot.heightPt);
  const free = face.heightPt - used;
  const each = free / Math.max(1, dives.length);
  if (!form.writes) {
    // The day is read as a whole: what is left for notes stands below it.
    if (free < -1e-6) return null;
    return stack([
      head,
      ...dives.map(({ block }) => block),
      writeLines(pen, [], width, Math.max(0, free)),
      foot,
    ]);
  }
  if (each < (dives.length === 0 ? 0 : WRITE_LEAST * pen.mm - 1e-6)) return null;
  const parts = dives.flatMap(({ block }, i) => [block, writeLines(pen, asDived[i]!, width, each)]);
  const body = dives.length === 0 ? [writeLines(pen, [], width, free)] : parts;
  return stack([head, ...body, foot]);
}

/**
 * The cards of the days that are asked for.
 * @param isEven whether each card has an even number of faces: a front and a back
 * @returns null where a dive does not fit on a face at the size of the booklet
 */
export function dayCards(
  request: SlateRequest,
  set: Setter,
  dates: readonly string[],
  face: FaceSpace,
  mark: string,
  isEven: boolean,
): readonly Card[] | null {
  const pen = penOf(set, face.scale);
  const words = wordsOf(inOneSystem(slateReader(request)));
  const width = face.widthPt / pen.mm;
  const made = cardDrafts(pen, words, request, dates, face, isEven);
  if (made === null) return null;
  let isWholeSaid = false;
  const cards = made.map(({ shared, drafts }): Card => {
    const name = `${shared.names.join(', ')}, ${shared.day.day}`;
    const padded = isEven && drafts.length % 2 === 1 ? [...drafts, { dives: [] }] : drafts;
    const faces = padded.map((draft, at): Face => {
      const isSpare = at >= drafts.length;
      const head = headBlock(pen, shared, isSpare ? '' : turnWords(words, drafts, at, shared.day), width);
      const asDived = draft.dives.map(({ index }) => shared.day.dives[index]!.asDived);
      const numbers = draft.dives.map(({ index }) => shared.day.dives[index]!.number).join(', ');
      const which = draft.dives.length === 1 ? said`dive ${numbers}` : said`dives ${numbers}`;
      const usual: FootCaution = padded.length === 1 ? 'both' : at === 0 ? 'do' : 'no promise';
      const bodyWith = (caution: FootCaution): Block | null =>
        faceBody(
          pen,
          head,
          footBlock(pen, words, caution, mark, width),
          draft,
          asDived,
          face,
          FORMS[request.card],
        );
      const whole = isWholeSaid ? null : bodyWith('whole');
      if (whole !== null) isWholeSaid = true;
      const body = whole ?? bodyWith(usual);
      assert(body !== null, 'a face that was filled has no room for its foot');
      return { name: isSpare ? name : `${name}, ${words(which)}`, body };
    });
    return { faces };
  });
  if (isWholeSaid || cards.length === 0) return cards;
  // No face has room for it: it has one of its own.
  const body = stack([lines(pen, words(SAFETY_LINE), TYPES.data, width, 4.6)]);
  const last: Card = {
    faces: [{ name: words(said`Cautions`), body }, ...(isEven ? [{ name: '', body: space(0) }] : [])],
  };
  return [...cards, last];
}
