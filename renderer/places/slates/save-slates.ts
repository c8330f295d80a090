/** Saving and printing: what the buttons of the Slates place do, one job at a time. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { slugOf } from '../../../core/library';
import type { HostResult } from '../../../core/host';
import { doneDates } from '../../../core/slate/next-day';
import type { SlateSettings } from '../../../core/slate/options';
import type { Trouble } from '../../../core/result';
import { zipOf, type ZipEntry } from '../../../core/formats/zip';
import type { Id, Trip } from '../../../core/document/types';
import { saveDocument } from '../../actions/save-document';
import { say } from '../../store/notice';
import { todayText } from '../../figures/local-time';
import { desk } from '../../store/store';
import { machine } from '../../store/machine';
import { choices } from './choices';
import { registerPictureFonts } from './font-files';
import { PrintPages, paperOfPage } from './print-pages';
import type { SlateAnswer, SlateAsk, ToPrint } from './slate-job';
import { rememberPrinted, sinceOf } from './since';
import { slateMaker, slateOutcome } from './slate-maker';

export interface Job {
  /** "Guest 1, 2 of 12" or the like. */
  readonly label: string;
  readonly done: number;
  /** 0 while it is not known yet. */
  readonly all: number;
}

const job = createStore<{ readonly current: Job | null }>()(() => ({ current: null }));

export function useJob(): Job | null {
  return useStore(job, ({ current }) => current);
}

const maker = slateMaker();
let stopPrinting: (() => void) | null = null;

/** Ends the job under way; what was saved before stays. */
export function stopJob(): void {
  maker.stop();
  stopPrinting?.();
}

function tell(troubles: readonly Trouble[]): void {
  say({ tone: 'refused', lines: troubles });
}

function tellStopped(): void {
  say({ tone: 'said', lines: [{ what: 'Stopped; nothing more was made.', where: '', mend: '' }] });
}

/** What the maker made; null where it was stopped or could not, which has been said by then. */
async function made<Want extends SlateAsk['want']>(
  want: Want,
  what: ToPrint | Promise<ToPrint>,
  label: string,
): Promise<Extract<SlateAnswer, { readonly kind: Want }> | null> {
  job.setState({ current: { label, done: 0, all: 0 } });
  const asked = maker.ask({ want, ...(await what), printedOn: todayText() }, (count, all) =>
    job.setState({ current: { label, done: count, all } }),
  );
  const answer = slateOutcome(await asked);
  if (answer === null) tellStopped();
  else if (answer.kind === 'troubles') tell(answer.troubles);
  return answer?.kind === want ? (answer as Extract<SlateAnswer, { readonly kind: Want }>) : null;
}

async function during(work: () => Promise<void>): Promise<void> {
  if (job.getState().current !== null) return;
  try {
    await work();
  } finally {
    job.setState({ current: null });
  }
}

function heard<T>(result: HostResult<T>): T | null {
  if (result.ok) return result.value;
  say({ tone: 'refused', lines: [result.trouble] });
  return null;
}

function pagesText(count: number): string {
  return count === 1 ? 'one page' : `${count} pages`;
}

function fileName(trip: Trip, settings: SlateSettings, ending: 'pdf' | 'zip'): string {
  return `${slugOf(trip.title)}-${settings.kind}.${ending}`;
}

async function slatesOf(trip: Trip, settings: SlateSettings): Promise<ToPrint> {
  const done = doneDates(trip, desk.getState().nowMin);
  return {
    trip,
    settings,
    doneDates: done,
    since: await sinceOf(settings.kind, trip, choices.getState().since),
  };
}

/** What is of a trip is compared with the next time it is printed. */
async function remember(what: ToPrint | Promise<ToPrint>): Promise<void> {
  const printed = await what;
  if ('trip' in printed) {
    await rememberPrinted(printed.settings.kind, printed.trip, choices.getState().since);
  }
}

export function saveOne(trip: Trip, settings: SlateSettings): Promise<void> {
  return savePdf(slatesOf(trip, settings), fileName(trip, settings, 'pdf'));
}

/** Saves pages as one PDF, by the name where the user says. */
export function savePdf(what: ToPrint | Promise<ToPrint>, name: string): Promise<void> {
  return during(async () => {
    const pdf = await made('pdf', what, 'Making the pages');
    if (!pdf) return;
    await saveDocument({
      bytes: pdf.bytes,
      name,
      mediaType: 'application/pdf',
      contents: pagesText(pdf.pages),
    });
    await remember(what);
  });
}

/**
 * One PDF for each diver, all in one archive: a browser lets a page hand over one file a click, and a dozen
 * dialogs are no help on a desktop either.
 */
export function saveOneEach(trip: Trip, settings: SlateSettings): Promise<void> {
  return during(async () => {
    const ids = settings.diverIds ?? trip.party.map(({ id }) => id);
    const onDives = trip.party.filter(({ id }) => ids.includes(id) && divesOn(trip, id, settings.dates));
    const files: ZipEntry[] = [];
    let pages = 0;
    for (const [i, { id, name }] of onDives.entries()) {
      const mine = { ...settings, diverIds: [id] };
      const pdf = await made('pdf', slatesOf(trip, mine), `${name}, ${i + 1} of ${onDives.length}`);
      if (!pdf) return;
      pages += pdf.pages;
      // Numbered in the order of the party: two divers of one name are two files.
      files.push({ name: `${i + 1} ${nameInArchive(name)} ${settings.kind}.pdf`, bytes: pdf.bytes });
    }
    const archive = zipOf(files, todayText());
    const name = fileName(trip, settings, 'zip');
    const contents = `${files.length === 1 ? 'one PDF' : `${files.length} PDFs`}, ${pagesText(pages)}`;
    await saveDocument({ bytes: archive, name, mediaType: 'application/zip', contents });
  });
}

/** A name without what some system's file names cannot have; letters of any script stay. */
function nameInArchive(name: string): string {
  return name.replaceAll(/[\\/:*?"<>|\p{Control}]+/gu, ' ').trim();
}

/** Whether a diver has a dive on one of the days: who has none would have no page. */
function divesOn(trip: Trip, diverId: Id, dates: SlateSettings['dates']): boolean {
  return trip.dives.some(
    (dive) =>
      (dive.divers?.includes(diverId) ?? true) &&
      (!Array.isArray(dates) || dates.includes(dive.startsAt.slice(0, 10))),
  );
}

/** Pages drawn before the window gets a breath, to show how far it is and to hear Cancel. */
const DRAWN_AT_ONCE = 12;

/** Lays the pages ready for print beside the window and opens the system's dialog on them. */
export function printSlates(trip: Trip, settings: SlateSettings): Promise<void> {
  return printOut(slatesOf(trip, settings));
}

/** The same for pages of any kind. */
export function printOut(what: ToPrint | Promise<ToPrint>): Promise<void> {
  return during(async () => {
    const [laid] = await Promise.all([made('pages', what, 'Laying out the pages'), registerPictureFonts()]);
    if (!laid) return;
    const { pages } = laid.value;
    const stop = new AbortController();
    const stopped = new Promise<null>((resolve) => {
      stop.signal.addEventListener('abort', () => resolve(null));
    });
    stopPrinting = () => stop.abort();
    const printed = new PrintPages(laid.value);
    try {
      for (let done = 0; done < pages.length && !stop.signal.aborted;) {
        done = Math.min(pages.length, done + DRAWN_AT_ONCE);
        printed.draw(done);
        job.setState({ current: { label: 'Handing the pages over', done, all: pages.length } });
        await breath();
      }
      if (stop.signal.aborted) {
        tellStopped();
        return;
      }
      job.setState({ current: { label: 'In the print dialog', done: 0, all: 0 } });
      const answer = await Promise.race([machine().printPages(paperOfPage(pages[0]!)), stopped]);
      if (answer !== null) heard(answer);
      if (answer?.ok === true) await remember(what);
    } finally {
      stopPrinting = null;
      printed.remove();
    }
  });
}

/** Lets the window draw itself and hear its user. */
function breath(): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve);
  });
}
