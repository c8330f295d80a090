/** Saving and printing: what the buttons of the Slates place do, one job at a time. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { slugOf } from '../../../core/library';
import type { HostResult } from '../../../core/host';
import type { SlateSettings } from '../../../core/slate/options';
import type { Trouble } from '../../../core/result';
import { zipOf, type ZipEntry } from '../../../core/formats/zip';
import type { Id, Trip } from '../../../core/trip/types';
import { say } from '../../actions/view';
import { todayText } from '../../figures/local-time';
import { machine } from '../../store/machine';
import { SlateMaker } from './slate-maker';

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

const maker = new SlateMaker();

/** Ends the job under way; what was saved before stays. */
export function stopJob(): void {
  maker.stop();
}

function tell(troubles: readonly Trouble[]): void {
  say({ tone: 'refused', lines: troubles });
}

async function made(trip: Trip, settings: SlateSettings, label: string): Promise<Uint8Array | null> {
  job.setState({ current: { label, done: 0, all: 0 } });
  const outcome = await maker.ask({ want: 'pdf', trip, settings, printedOn: todayText() }, (done, all) =>
    job.setState({ current: { label, done, all } }),
  );
  if (outcome.kind === 'pdf') return outcome.bytes;
  if (outcome.kind === 'troubles') tell(outcome.troubles);
  if (outcome.kind === 'stopped') {
    say({ tone: 'said', lines: [{ what: 'Stopped; nothing more was made.', where: '', mend: '' }] });
  }
  return null;
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

function fileName(trip: Trip, settings: SlateSettings, ending: 'pdf' | 'zip'): string {
  return `${slugOf(trip.title)}-${settings.kind}.${ending}`;
}

export function saveOne(trip: Trip, settings: SlateSettings): Promise<void> {
  return during(async () => {
    const bytes = await made(trip, settings, 'Making the pages');
    if (bytes) heard(await machine().saveDocument(bytes, fileName(trip, settings, 'pdf'), 'application/pdf'));
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
    for (const [i, { id, name }] of onDives.entries()) {
      const bytes = await made(
        trip,
        { ...settings, diverIds: [id] },
        `${name}, ${i + 1} of ${onDives.length}`,
      );
      if (!bytes) return;
      // Numbered in the order of the party: two divers of one name are two files.
      files.push({ name: `${i + 1} ${nameInArchive(name)} ${settings.kind}.pdf`, bytes });
    }
    const archive = zipOf(files, todayText());
    const name = fileName(trip, settings, 'zip');
    heard(await machine().saveDocument(archive, name, 'application/zip'));
  });
}

/** A name without what some system's file names cannot have; letters of any script stay. */
function nameInArchive(name: string): string {
  return name.replaceAll(/[\\/:*?"<>|\p{Control}]+/gu, ' ').trim();
}

/** Whether a diver has a dive on one of the days: who has none would have no page. */
function divesOn(trip: Trip, diverId: Id, dates: readonly string[] | null): boolean {
  return trip.dives.some(
    (dive) =>
      (dive.divers?.includes(diverId) ?? true) &&
      (dates === null || dates.includes(dive.startsAt.slice(0, 10))),
  );
}

export function printSlates(trip: Trip, settings: SlateSettings): Promise<void> {
  return during(async () => {
    const bytes = await made(trip, settings, 'Making the pages');
    if (bytes) heard(await machine().printPdf(bytes, trip.title));
  });
}
