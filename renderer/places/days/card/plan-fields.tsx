import type { ReactNode } from 'react';
import { levelsOf, safetyStopOf, USUAL_SAFETY_STOP, type Level } from '../../../../core/profile';
import type { Dive } from '../../../../core/document/types';
import { setLevels, setSafetyStop, setTurnShare } from '../../../actions/dive-rest';
import { tell } from '../../../actions/edit';
import { Choice } from '../../../parts/choice';
import { depthText, minutesText } from '../../../figures/format';
import { MinutesField, ShareField, UnitField } from '../../../parts/number-field';
import { useDesk } from '../../../store/store';
import styles from './dive-fields.module.css';

/** A level is added this much shallower and this long, to edit from. */
const NEXT_LEVEL_UP_M = 5;
const NEXT_LEVEL_MIN = 10;
const SHALLOWEST_LEVEL_M = 5;
/** The share after which a party turns where a dive says nothing (core/supply). */
const USUAL_TURN_SHARE = 0.5;

/** Levels, stop and turn of a dive, to be edited. */
export function PlanFields({ dive }: { readonly dive: Dive }): ReactNode {
  const levels = levelsOf(dive);
  return (
    <div className={styles.pairs}>
      {levels.map((level, i) => (
        <LevelFields
          // Levels have no id of their own; their place in the order is what they are.
          // oxlint-disable-next-line react/no-array-index-key
          key={i}
          number={i + 1}
          level={level}
          put={(next) =>
            setLevels(
              dive.id,
              levels.map((each, at) => (at === i ? next : each)),
            )
          }
        />
      ))}
      <p className={styles.tools}>
        <button
          type="button"
          className="linked"
          onClick={() => void tell(setLevels(dive.id, [...levels, nextLevel(levels)]))}
        >
          Add a level
        </button>
        {levels.length > 1 ? (
          <button
            type="button"
            className="linked"
            onClick={() => void tell(setLevels(dive.id, levels.slice(0, -1)))}
          >
            Remove the last level
          </button>
        ) : null}
      </p>
      <SafetyStopFields dive={dive} />
      <ShareField
        label="Turn after this share of the gas"
        value={dive.turnShare ?? USUAL_TURN_SHARE}
        commit={(share) => setTurnShare(dive.id, share)}
      />
    </div>
  );
}

function nextLevel(levels: readonly Level[]): Level {
  const last = levels.at(-1);
  const depthM = Math.max(SHALLOWEST_LEVEL_M, (last?.depthM ?? 0) - NEXT_LEVEL_UP_M);
  return { depthM, min: NEXT_LEVEL_MIN };
}

function LevelFields(props: {
  readonly number: number;
  readonly level: Level;
  readonly put: (level: Level) => ReturnType<typeof setLevels>;
}): ReactNode {
  const { number, level, put } = props;
  return (
    <>
      <UnitField
        label={`Level ${number}, depth`}
        kind="depth"
        value={level.depthM}
        commit={(depthM) => put({ ...level, depthM })}
      />
      <MinutesField
        label={`Level ${number}, travel and stay`}
        value={level.min}
        commit={(min) => put({ ...level, min })}
      />
    </>
  );
}

function SafetyStopFields({ dive }: { readonly dive: Dive }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const { safetyStop: _, ...unsaid } = dive;
  const usual = safetyStopOf(unsaid);
  const kind = dive.safetyStop === undefined ? 'usual' : dive.safetyStop === null ? 'none' : 'own';
  const own = dive.safetyStop ?? null;
  return (
    <>
      <Choice
        label="Safety stop"
        value={kind}
        options={[
          {
            value: 'usual',
            label: usual
              ? `The usual, ${minutesText(usual.min, 'near')} at ${depthText(usual.depthM, units)}`
              : 'The usual: none so shallow',
          },
          { value: 'own', label: 'Another' },
          { value: 'none', label: 'None' },
        ]}
        commit={(next) => {
          const stop = next === 'usual' ? undefined : next === 'none' ? null : USUAL_SAFETY_STOP;
          tell(setSafetyStop(dive.id, stop));
        }}
        wide
      />
      {own ? (
        <>
          <UnitField
            label="Stop at"
            kind="depth"
            value={own.depthM}
            commit={(depthM) => setSafetyStop(dive.id, { ...own, depthM })}
          />
          <MinutesField
            label="Stop for"
            value={own.min}
            commit={(min) => setSafetyStop(dive.id, { ...own, min })}
          />
        </>
      ) : null}
    </>
  );
}
