/** What is breathed in class, as a sentence that is chosen word by word. */
import type { ReactNode } from 'react';
import { checkTrip } from '../../../core/document/check-trip';
import { classTrip, type ClassLoop } from '../../../core/mixes/class-dive';
import { LEANEST_PERCENT, RICHEST_PERCENT } from '../../../core/mixes/shares';
import { bare, figure, said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { parseFigure, parseNumber, type Parsed } from '../../figures/parse';
import { useWords } from '../../parts/use-words';
import { useDesk } from '../../store/store';
import { WordChoice, WordField } from './in-sentence';
import { chooseView, useMixesView } from './mixes-view';

/** Of all that is breathed: on paper no more stand side by side. */
const MOST_GASES = 4;
const FEWEST_GASES = 2;
const AIR_PERCENT = 21;

const SHARES = [
  AIR_PERCENT,
  ...Array.from({ length: RICHEST_PERCENT - LEANEST_PERCENT + 1 }, (_, i) => LEANEST_PERCENT + i),
];

function MixWords(): ReactNode {
  const words = useWords();
  const classroom = useMixesView((view) => view.classroom);
  const { percents, hasLoop } = classroom;
  const count = percents.length + (hasLoop ? 1 : 0);
  const choose = (next: readonly number[]): void =>
    chooseView({ classroom: { ...classroom, percents: next.toSorted((a, b) => a - b) } });
  const left = SHARES.filter((percent) => !percents.includes(percent));
  return (
    <>
      {percents.map((percent, at) => (
        <span key={percent}>
          <WordChoice
            label={`Mix ${at + 1}`}
            value={String(percent)}
            options={[
              ...SHARES.filter((each) => each === percent || left.includes(each)).map((each) => ({
                value: String(each),
                label: words(mixSaid(each / 100)),
              })),
              ...(count > FEWEST_GASES ? [{ value: 'none', label: 'leave out' }] : []),
            ]}
            commit={(value) =>
              choose(
                value === 'none'
                  ? percents.filter((each) => each !== percent)
                  : percents.map((each) => (each === percent ? Number(value) : each)),
              )
            }
          />{' '}
        </span>
      ))}
      {count < MOST_GASES ? (
        <button
          type="button"
          className="linked"
          onClick={() =>
            choose([...percents, left.find((percent) => percent > Math.max(...percents)) ?? left[0]!])
          }
        >
          add a mix
        </button>
      ) : null}
    </>
  );
}

/** A setpoint or a diluent as a trip would take it, by the rules of a trip; else what is wrong with it. */
function useLoop(): {
  readonly loop: ClassLoop;
  readonly refused: (patch: Partial<ClassLoop>) => Parsed<never> | null;
  readonly change: (patch: Partial<ClassLoop>) => void;
} {
  const words = useWords();
  const classroom = useMixesView((view) => view.classroom);
  const { loop, depthM, percents } = classroom;
  return {
    loop,
    refused: (patch) => {
      const [trouble] = checkTrip(classTrip({ depthM, percents, loop: { ...loop, ...patch } }), words);
      return trouble ? { ok: false, what: trouble.what, mend: trouble.mend } : null;
    },
    change: (patch) => chooseView({ classroom: { ...classroom, loop: { ...loop, ...patch } } }),
  };
}

function Setpoint({ label, of }: { readonly label: string; readonly of: 'lowBar' | 'highBar' }): ReactNode {
  const words = useWords();
  const { loop, refused, change } = useLoop();
  return (
    <WordField
      label={label}
      value={loop[of]}
      show={(bar) => words(said`${bare('po2Limit', bar)}`)}
      parse={(text) => {
        const bar = parseNumber(text);
        return (bar.ok ? refused({ [of]: bar.value }) : null) ?? bar;
      }}
      commit={(bar) => change({ [of]: bar })}
    />
  );
}

/** The loop beside the mixes: its setpoints and its diluent, and the way to be without it. */
function LoopWords(): ReactNode {
  const words = useWords();
  const units = useDesk(({ settings }) => settings.units);
  const { loop, refused, change } = useLoop();
  const classroom = useMixesView((view) => view.classroom);
  return (
    <span role="group" aria-label="Loop">
      beside a loop, diluent{' '}
      <WordChoice
        label="Diluent"
        value={String(loop.diluentPercent)}
        options={SHARES.map((percent) => ({
          value: String(percent),
          label: words(mixSaid(percent / 100)),
        }))}
        commit={(percent) => change({ diluentPercent: Number(percent) })}
      />{' '}
      at <Setpoint label="Low setpoint, bar" of="lowBar" /> bar and from{' '}
      <WordField
        label="Depth of the switch"
        value={loop.switchM}
        show={(depthM) => words(said`${figure('depthSet', depthM)}`)}
        parse={(text) => {
          const depth = parseFigure(text, 'depth', units);
          return (depth.ok ? refused({ switchM: depth.value }) : null) ?? depth;
        }}
        commit={(switchM) => change({ switchM })}
      />{' '}
      on at <Setpoint label="High setpoint, bar" of="highBar" /> bar{' '}
      <button
        type="button"
        className="linked"
        onClick={() => chooseView({ classroom: { ...classroom, hasLoop: false } })}
      >
        without the loop
      </button>
    </span>
  );
}

/** Puts the loop beside the mixes; where there is no room the richest of them makes it, and says so. */
function AddLoop(): ReactNode {
  const words = useWords();
  const classroom = useMixesView((view) => view.classroom);
  const { percents } = classroom;
  const kept = percents.slice(0, MOST_GASES - 1);
  const [left] = percents.slice(kept.length);
  return (
    <button
      type="button"
      className="linked"
      onClick={() => chooseView({ classroom: { ...classroom, percents: kept, hasLoop: true } })}
    >
      {left === undefined ? 'add a loop' : words(said`a loop in the place of ${mixSaid(left / 100)}`)}
    </button>
  );
}

/** The mixes, and the loop beside them. */
export function ClassAsk(): ReactNode {
  const hasLoop = useMixesView((view) => view.classroom.hasLoop);
  return (
    <>
      <MixWords /> {hasLoop ? <LoopWords /> : <AddLoop />}
    </>
  );
}
