import { useEffect, useMemo, useState, type ReactNode } from 'react';
import { LARGEST_SEED } from '../../../core/lesson/drawing-lots';
import { LEVEL_NAMES, LEVELS, MOST_QUESTIONS, type Level } from '../../../core/lesson/sheet';
import { assert, type Trouble } from '../../../core/result';
import { readPaper } from '../../../core/slate/paper';
import { said } from '../../../core/words/said';
import { closeOverlay } from '../../actions/view';
import { decimalSign } from '../../figures/decimal-sign';
import { parseNumber } from '../../figures/parse';
import { todayText } from '../../figures/local-time';
import { Choice } from '../../parts/choice';
import { Dialog } from '../../parts/dialog';
import { Field } from '../../parts/field';
import { useWords } from '../../parts/use-words';
import { machine } from '../../store/machine';
import { useDesk } from '../../store/store';
import { classLook } from '../mixes/class-look';
import { useMixesView } from '../mixes/mixes-view';
import { registerPictureFonts } from '../slates/font-files';
import { PagePicture } from '../slates/page-picture';
import { usePrintedAlone } from '../slates/print-pages';
import { printOut, savePdf, useJob } from '../slates/save-slates';
import type { LessonToPrint, SlatePages } from '../slates/slate-job';
import { slateMaker, slateOutcome } from '../slates/slate-maker';
import { chooseLesson, useLesson, type SheetPaper } from './lesson-view';
import styles from './lesson.module.css';

/** Two pages of A4 side by side on a window of 1280 pixels. */
const ZOOM = 0.72;

/** The paper that goes with the units of the window, or the one that was chosen. */
function usePaper(): SheetPaper {
  const { paper } = useLesson();
  const units = useDesk(({ settings }) => settings.units);
  return paper ?? (units === 'metric' ? 'A4' : 'letter');
}

/** What is printed, the same object while the choices are. */
function useToPrint(lesson: LessonToPrint['lesson']): LessonToPrint {
  const name = usePaper();
  return useMemo(() => {
    const read = readPaper(name);
    assert(read.ok, 'papers are offered by their names');
    return { lesson, paper: read.value, decimal: decimalSign() };
  }, [lesson, name]);
}

/** The pages, laid out beside the window; those before stay in sight until they are there. */
function usePages(what: LessonToPrint): {
  readonly pages: SlatePages | null;
  readonly troubles: readonly Trouble[];
} {
  const [maker] = useState(slateMaker);
  const [pages, setPages] = useState<SlatePages | null>(null);
  const [troubles, setTroubles] = useState<readonly Trouble[]>([]);
  useEffect(() => () => maker.stop(), [maker]);
  useEffect(() => {
    let isWanted = true;
    const asked = maker.ask({ want: 'pages', ...what, printedOn: todayText() });
    void Promise.all([asked, registerPictureFonts()]).then(([outcome]) => {
      const answer = slateOutcome(outcome);
      if (!isWanted || answer === null) return;
      if (answer.kind === 'pages') setPages(answer.value);
      setTroubles(answer.kind === 'troubles' ? answer.troubles : []);
    });
    return () => {
      isWanted = false;
    };
  }, [maker, what]);
  return { pages, troubles };
}

/** A whole number from 1 on. */
function CountField(props: {
  readonly label: string;
  readonly value: number;
  readonly most: number;
  readonly hint?: string;
  readonly commit: (value: number) => void;
}): ReactNode {
  const { label, value, most, hint, commit } = props;
  return (
    <Field
      label={label}
      value={value}
      show={String}
      parse={(text) => {
        const number = parseNumber(text);
        if (!number.ok || (Number.isInteger(number.value) && number.value >= 1 && number.value <= most)) {
          return number;
        }
        const what = `${text.trim()} is no whole number from 1 to ${most}.`;
        return { ok: false, what, mend: 'Type one that is.' };
      }}
      commit={commit}
      step={(from, by, large) => Math.min(most, Math.max(1, from + by * (large ? 5 : 1)))}
      hint={hint}
    />
  );
}

function PaperChoice(): ReactNode {
  const paper = usePaper();
  return (
    <Choice
      label="Paper"
      value={paper}
      options={[
        { value: 'A4', label: 'A4' },
        { value: 'letter', label: 'Letter' },
      ]}
      commit={(chosen) => chooseLesson({ paper: chosen })}
    />
  );
}

function SheetChoices(): ReactNode {
  const words = useWords();
  const { seed, level, questions } = useLesson();
  return (
    <>
      <Choice
        label="Level"
        value={String(level)}
        options={LEVELS.map((each) => ({
          value: String(each),
          label: words(said`${each}: ${LEVEL_NAMES[each]}`),
        }))}
        commit={(chosen) => chooseLesson({ level: Number(chosen) as Level })}
        wide
      />
      <CountField
        label="Questions"
        value={questions}
        most={MOST_QUESTIONS}
        commit={(next) => chooseLesson({ questions: next })}
      />
      <CountField
        label="Sheet"
        value={seed}
        most={LARGEST_SEED}
        commit={(next) => chooseLesson({ seed: next })}
        hint="The same number is the same sheet."
      />
    </>
  );
}

/** Pages of a class as they will be, what they are made by, and the ways out. */
function Paged(props: {
  readonly title: string;
  readonly lesson: LessonToPrint['lesson'];
  readonly fileName: string;
  readonly choices?: ReactNode;
  readonly more?: ReactNode;
}): ReactNode {
  const { title, lesson, fileName, choices, more } = props;
  const what = useToPrint(lesson);
  const isBusy = useJob() !== null;
  const { pages, troubles } = usePages(what);
  usePrintedAlone(pages);
  return (
    <Dialog
      title={title}
      width="full"
      onClose={closeOverlay}
      foot={
        <>
          {more}
          {machine().supports.systemPrint ? (
            <button
              type="button"
              className="button"
              disabled={isBusy || pages === null}
              onClick={() => void printOut(what)}
            >
              Print
            </button>
          ) : null}
          <button
            type="button"
            className="button first"
            disabled={isBusy || pages === null}
            onClick={() => void savePdf(what, fileName)}
          >
            Save PDF
          </button>
        </>
      }
    >
      <div className={styles.choices}>
        {choices}
        <PaperChoice />
      </div>
      {troubles.map((trouble) => (
        <p key={trouble.what} role="alert">
          <strong>{trouble.what}</strong> {trouble.mend}
        </p>
      ))}
      <section className={styles.pages} aria-label="Pages as they will be printed">
        {pages === null ? <p className="soft">Laying out the pages…</p> : null}
        {pages?.pages.map((page, at) => (
          <PagePicture key={page.name} page={page} number={at + 1} zoom={ZOOM} />
        ))}
      </section>
    </Dialog>
  );
}

function Exercises(): ReactNode {
  const { seed, level, questions } = useLesson();
  const units = useDesk(({ settings }) => settings.units);
  const sheet = useMemo(() => ({ seed, level, questions, units }), [seed, level, questions, units]);
  return (
    <Paged
      title="Exercise sheet"
      lesson={sheet}
      fileName={`exercises-${seed}-level-${level}.pdf`}
      choices={<SheetChoices />}
      more={
        <button
          type="button"
          className="button"
          onClick={() => chooseLesson({ seed: (seed % LARGEST_SEED) + 1 })}
        >
          Another sheet
        </button>
      }
    />
  );
}

function Workings(): ReactNode {
  const classroom = useMixesView((view) => view.classroom);
  const units = useDesk(({ settings }) => settings.units);
  const look = useMemo(() => ({ ...classLook(classroom), units }), [classroom, units]);
  return <Paged title="Workings of the class" lesson={look} fileName={`workings-${look.depthM}-m.pdf`} />;
}

/** What a class is given on paper: exercises, or the workings of what it looks at. */
export function LessonSheet({ what }: { readonly what: 'exercises' | 'workings' }): ReactNode {
  return what === 'exercises' ? <Exercises /> : <Workings />;
}
