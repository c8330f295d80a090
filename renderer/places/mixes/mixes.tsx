import type { ComponentType, KeyboardEvent, ReactNode } from 'react';
import { lazily, type StandIn } from '../../parts/lazily';
import { DiveChoice } from './dive-choice';
import { chooseView, useMixesView, type Question } from './mixes-view';
import { OnBoard } from './on-board';
import { SiteTable } from './site-table';
import { StockPanel } from './stock-panel';
import lines from './mix-line.module.css';
import styles from './mixes.module.css';

interface QuestionEntry {
  readonly id: Question;
  readonly label: string;
  readonly Panel: ComponentType;
}

const LATE: StandIn = {
  waiting: <p className="soft">One moment…</p>,
  failed: ({ what, mend }, again) => (
    <p role="alert">
      {what} {mend}{' '}
      <button type="button" className="linked" onClick={again}>
        Try again
      </button>
    </p>
  ),
};

/** What is not asked first comes when it is shown. */
const Fills = lazily(
  () => import('./fills'),
  (part) => part.Fills,
  LATE,
);
const DepthCards = lazily(
  () => import('./depth-cards'),
  (part) => part.DepthCards,
  LATE,
);
const Class = lazily(
  () => import('./class-room'),
  (part) => part.ClassRoom,
  LATE,
);

const QUESTIONS: readonly QuestionEntry[] = [
  { id: 'sites', label: 'At the sites', Panel: SiteTable },
  { id: 'dive', label: 'For one dive', Panel: DiveChoice },
  { id: 'stock', label: 'What to stock', Panel: StockPanel },
  { id: 'fills', label: 'Blending and fills', Panel: Fills },
  { id: 'depths', label: 'Depth cards', Panel: DepthCards },
  { id: 'class', label: 'In class', Panel: Class },
];

/** Arrow keys go from question to question, as in any list of tabs. */
function onKeyDown(event: KeyboardEvent<HTMLElement>, at: number): void {
  const by = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
  if (by === 0) return;
  event.preventDefault();
  const next = QUESTIONS[(at + by + QUESTIONS.length) % QUESTIONS.length]!;
  chooseView({ question: next.id });
  document.getElementById(`question-${next.id}`)?.focus();
}

/** Mixes: which gas where, what it changes, what the boat should carry and what filling takes. */
export function Mixes(): ReactNode {
  const question = useMixesView((view) => view.question);
  const { Panel } = QUESTIONS.find(({ id }) => id === question) ?? QUESTIONS[0]!;
  return (
    <div className={`${styles.mixes} ${lines.colours}`}>
      <header className={styles.head}>
        <h2>Mixes</h2>
        <div className={styles.questions} role="tablist" aria-label="Questions about mixes">
          {QUESTIONS.map(({ id, label }, at) => (
            <button
              key={id}
              id={`question-${id}`}
              type="button"
              role="tab"
              aria-selected={id === question}
              aria-controls="question-panel"
              tabIndex={id === question ? 0 : -1}
              onClick={() => chooseView({ question: id })}
              onKeyDown={(event) => onKeyDown(event, at)}
            >
              {label}
            </button>
          ))}
        </div>
        <OnBoard />
      </header>
      <div id="question-panel" role="tabpanel" aria-labelledby={`question-${question}`}>
        <Panel />
      </div>
    </div>
  );
}
