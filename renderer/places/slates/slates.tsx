import { useEffect, useMemo, useState, type ReactNode } from 'react';
import { doneDates } from '../../../core/slate/next-day';
import type { SlateSettings } from '../../../core/slate/options';
import { MISSING_MARK } from '../../../core/slate/font';
import { fileWords } from '../../../core/words/reader';
import type { Trouble } from '../../../core/result';
import type { Trip } from '../../../core/document/types';
import { Choice, type Option } from '../../parts/choice';
import { todayText } from '../../figures/local-time';
import { machine } from '../../store/machine';
import { selectLedger, selectTrip } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { choices, choose, slateSettings, useChoices } from './choices';
import { registerPictureFonts } from './font-files';
import { PagePicture } from './page-picture';
import { usePrintedAlone } from './print-pages';
import { printSlates, saveOne, saveOneEach, stopJob, useJob } from './save-slates';
import type { SlatePages } from './slate-job';
import { sinceOf } from './since';
import { slateMaker, slateOutcome } from './slate-maker';
import { SlateOptionsForm } from './slate-options';
import styles from './slates.module.css';

type Shown =
  | { readonly kind: 'waiting' }
  | { readonly kind: 'pages'; readonly value: SlatePages }
  | { readonly kind: 'troubles'; readonly troubles: readonly Trouble[] };

const STOPPED = { kind: 'stopped' } as const;

/** The pages of the choices as they stand, laid out beside the window; the last asked for wins. */
function usePages(trip: Trip, settings: SlateSettings | null, done: string): Shown {
  const [shown, setShown] = useState<Shown>({ kind: 'waiting' });
  const [maker] = useState(slateMaker);
  useEffect(() => () => maker.stop(), [maker]);
  useEffect(() => {
    if (settings === null) return undefined;
    let isShown = true;
    const asked = sinceOf(settings.kind, trip, choices.getState().since).then((since) =>
      isShown
        ? maker.ask({
            want: 'pages',
            trip,
            settings,
            printedOn: todayText(),
            doneDates: done.split(' '),
            since,
          })
        : STOPPED,
    );
    void Promise.all([asked, registerPictureFonts()]).then(([outcome]) => {
      const answer = slateOutcome(outcome);
      if (isShown && answer !== null && answer.kind !== 'pdf') setShown(answer);
    });
    return () => {
      isShown = false;
    };
  }, [maker, trip, settings, done]);
  return shown;
}

function Troubles({ troubles }: { readonly troubles: readonly Trouble[] }): ReactNode {
  return (
    <div className={styles.troubles} data-part="troubles" role="alert">
      {troubles.map(({ what, mend }) => (
        <p key={what}>
          <strong>{what}</strong> {mend}
        </p>
      ))}
    </div>
  );
}

function JobLine(): ReactNode {
  const job = useJob();
  if (!job) return null;
  return (
    <div className={styles.job} data-part="job" role="status">
      <label>
        {job.label}
        {job.all > 0 ? `: page ${job.done} of ${job.all}` : ''}
        <progress value={job.all > 0 ? job.done : undefined} max={Math.max(1, job.all)} />
      </label>
      <button type="button" className="plain" onClick={stopJob}>
        Cancel
      </button>
    </div>
  );
}

function Actions(props: {
  readonly trip: Trip;
  readonly settings: SlateSettings | null;
  readonly pages: number;
}): ReactNode {
  const { trip, settings, pages } = props;
  const isBusy = useJob() !== null;
  const isIdle = settings === null || pages === 0 || isBusy;
  const divers = settings?.diverIds?.length ?? trip.party.length;
  return (
    <div className={styles.actions}>
      <button
        type="button"
        className="button first"
        disabled={isIdle}
        onClick={() => settings && void saveOne(trip, settings)}
      >
        Save PDF
      </button>
      {machine().supports.systemPrint ? (
        <button
          type="button"
          className="button"
          disabled={isIdle}
          onClick={() => settings && void printSlates(trip, settings)}
        >
          Print
        </button>
      ) : null}
      {divers > 1 ? (
        <button
          type="button"
          className="button"
          disabled={isIdle}
          onClick={() => settings && void saveOneEach(trip, settings)}
        >
          Save one PDF a diver (ZIP)
        </button>
      ) : null}
      <JobLine />
    </div>
  );
}

const ZOOMS: readonly Option<string>[] = [
  { value: '0.6', label: 'Small' },
  { value: '1', label: 'Real size' },
  { value: '1.5', label: 'Large' },
];

/** Slates: what is printed, on what, and each page as it will be. */
export function Slates(): ReactNode {
  const trip = useDesk(selectTrip);
  const whole = useDesk(selectLedger);
  const units = useDesk(({ settings }) => settings.units);
  const clock = useDesk(({ settings }) => settings.clock);
  const paper = useDesk(({ settings }) => settings.paper);
  const chosen = useChoices();
  const dates = useMemo(
    () => [...new Set(whole.divers.flatMap((each) => each.days.map((day) => day.date)))].toSorted(),
    [whole],
  );
  // A text, as the clock ticks oftener than a day is over.
  const done = useDesk(({ trip: shown, nowMin }) => doneDates(shown, nowMin).join(' '));
  const { zoom, ...printed } = chosen;
  const key = JSON.stringify(printed);
  const read = useMemo(
    () => slateSettings(chosen, trip, dates, { units, clock, paper }),
    // The zoom changes no page: `key` stands for all other choices.
    // oxlint-disable-next-line react/exhaustive-deps
    [key, trip, dates, units, clock, paper],
  );
  const shown = usePages(trip, read.ok ? read.value : null, done);
  const laid = read.ok && shown.kind === 'pages' ? shown.value : null;
  const pages = laid?.pages ?? [];
  usePrintedAlone(laid);
  return (
    <div className={styles.slates} data-part="slates">
      <aside className={styles.side} aria-label="What to print">
        <h2>Slates</h2>
        <SlateOptionsForm dates={dates} />
        <Actions trip={trip} settings={read.ok ? read.value : null} pages={pages.length} />
      </aside>
      <section className={styles.pages} aria-label="Pages as they will be printed">
        {read.ok ? null : <Troubles troubles={read.troubles} />}
        {read.ok && shown.kind === 'troubles' ? <Troubles troubles={shown.troubles} /> : null}
        {read.ok && shown.kind === 'waiting' ? <p className="waiting">Laying out the pages…</p> : null}
        {shown.kind === 'pages' && shown.value.missingLetters.length > 0 ? (
          <p className="care" role="status">
            The fonts have no sign for {shown.value.missingLetters.join(' ')}: {MISSING_MARK} stands in its
            place.
          </p>
        ) : null}
        {pages.length > 0 ? (
          <div className={styles.head}>
            <p className={styles.count} data-part="count" role="status">
              {laid === null ? '' : fileWords(laid.count)}
            </p>
            <Choice
              label="Shown"
              value={String(zoom)}
              options={ZOOMS}
              commit={(chosenZoom) => choose({ zoom: Number(chosenZoom) })}
            />
          </div>
        ) : null}
        <div className={styles.list}>
          {pages.map((page, i) => (
            <PagePicture key={`${i} ${page.name}`} page={page} number={i + 1} zoom={zoom} />
          ))}
        </div>
      </section>
    </div>
  );
}
