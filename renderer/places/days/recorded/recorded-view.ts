/** Which file of recorded dives is being read, beside the window, and what came of the last. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { RecordedReading } from '../../../../core/formats/recorded/recorded-dive';
import { workBeside } from '../../../parts/work';
import { desk } from '../../../store/store';
import type { RecordedAsk } from './recorded-job';
import workerUrl from './recorded-worker?worker&url';

/** A file as it was read. */
export interface ReadFile {
  readonly name: string;
  readonly reading: RecordedReading;
}

interface RecordedView {
  /** The name of the file that is being read; null: none. */
  readonly readingName: string | null;
  /** The last that was read; it stays until another is. */
  readonly file: ReadFile | null;
  /** Why the last one asked for was not; null: it was. */
  readonly fault: string | null;
}

const NOTHING: RecordedView = { readingName: null, file: null, fault: null };

const view = createStore<RecordedView>()(() => NOTHING);

const work = workBeside<RecordedAsk, RecordedReading>(workerUrl);

export function useRecordedView(): RecordedView {
  return useStore(view);
}

/** Reads a file; one that is being read is left at once. */
export async function startReading(name: string, text: string): Promise<void> {
  const { trip, settings } = desk.getState();
  const { units, clock } = settings;
  const viewer = { units, clock, trip };
  const asked = work.ask({ text, ascentMPerMin: trip.settings.ascentMPerMin, viewer });
  view.setState({ readingName: name, fault: null });
  const outcome = await asked;
  if (outcome.kind === 'stopped') return;
  if (outcome.kind === 'fault') {
    view.setState({ readingName: null, fault: `${name} was not read: ${outcome.message}` });
  } else view.setState({ readingName: null, file: { name, reading: outcome.answer } });
}

/** Ends the reading, as the user asked. */
export function stopReading(): void {
  work.stop();
  view.setState({ readingName: null });
}

/** Forgets all of it as the sheet goes. */
export function leaveRecorded(): void {
  work.stop();
  view.setState(NOTHING);
}
