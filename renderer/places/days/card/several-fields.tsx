import type { ReactNode } from 'react';
import { fromUnit } from '../../../../core/words/quantity';
import type { Dive } from '../../../../core/document/types';
import { said, type Said } from '../../../../core/words/said';
import { BEST_MIX, mixSaid, UNIT_NAMES } from '../../../../core/words/terms';
import { goToSite, setBottomMin, setMix, shiftDives } from '../../../actions/dives';
import { tell, type EditResult } from '../../../actions/edit';
import { shortText } from '../../../figures/format';
import { parseMinutes } from '../../../figures/parse';
import { Choice } from '../../../parts/choice';
import { Field } from '../../../parts/field';
import { useWords } from '../../../parts/use-words';
import { useDesk } from '../../../store/store';
import styles from './several-card.module.css';

/** Where the dives do not agree. */
const UNLIKE = '';

/** The one value that all have, or none. */
function common<T>(values: readonly T[]): T | null {
  const [first] = values;
  return first !== undefined && values.every((value) => value === first) ? first : null;
}

const SHIFTS_MIN = [-60, -15, -5, 5, 15, 60] as const;
/** In the reader's own unit. */
const DEPTHS = { metric: [-5, -1, 1, 5], imperial: [-10, -5, 5, 10] } as const;

/** What several dives are set to together: each change is one step of undo, of all of them or none. */
export function SeveralFields({ dives }: { readonly dives: readonly Dive[] }): ReactNode {
  const words = useWords();
  const sites = useDesk(({ trip }) => trip.sites);
  const mixes = useDesk(({ trip }) => trip.mixes);
  const units = useDesk(({ settings }) => settings.units);
  const ids = dives.map(({ id }) => id);
  const siteId = common(dives.map((dive) => dive.siteId));
  const mix = common(dives.map((dive) => dive.mix));
  const unlike = { value: UNLIKE, label: words(said`several`) };
  return (
    <div className={styles.fields} role="group" aria-label={words(said`Set for all of them`)}>
      <Choice
        label={words(said`Site`)}
        value={siteId ?? UNLIKE}
        options={[
          ...(siteId === null ? [unlike] : []),
          ...sites.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        commit={(value) => (value === UNLIKE ? undefined : void tell(goToSite(ids, value)))}
      />
      <Choice
        label={words(said`Mix`)}
        value={mix ?? UNLIKE}
        options={[
          ...(mix === null ? [unlike] : []),
          { value: 'auto', label: words(BEST_MIX) },
          ...mixes.map(({ id, o2 }) => ({ value: id, label: words(mixSaid(o2)) })),
        ]}
        commit={(value) => (value === UNLIKE ? undefined : void tell(setMix(ids, value)))}
      />
      <CommonMinutes
        min={common(dives.map((dive) => dive.bottomMin))}
        commit={(min) => setBottomMin(ids, min)}
      />
      <By
        label={said`Depth by, ${UNIT_NAMES.depth[units]}`}
        steps={DEPTHS[units].map((step) => {
          const m = fromUnit(step, 'depth', units);
          return {
            says: signed(step),
            run: () => shiftDives(ids, 0, m),
          };
        })}
      />
      <By
        label={said`Start by, ${UNIT_NAMES.minutes[units]}`}
        steps={SHIFTS_MIN.map((min) => ({
          says: signed(min),
          run: () => shiftDives(ids, min),
        }))}
      />
    </div>
  );
}

/** A step up or down with its sign in front. */
function signed(step: number): Said {
  return step < 0 ? said`−${-step}` : said`+${step}`;
}

/** A bottom time that all have; nothing where they differ, and what is typed is for all. */
function CommonMinutes(props: {
  readonly min: number | null;
  readonly commit: (min: number) => EditResult;
}): ReactNode {
  const words = useWords();
  return (
    <Field<number | null>
      label={words(said`Bottom time`)}
      value={props.min}
      show={(min) => (min === null ? words(said`several`) : `${shortText(min, 1)} min`)}
      parse={parseMinutes}
      commit={(min) => (min === null ? undefined : props.commit(min))}
    />
  );
}

function By(props: {
  readonly label: Said;
  readonly steps: readonly { readonly says: Said; readonly run: () => EditResult }[];
}): ReactNode {
  const words = useWords();
  return (
    <div className={styles.by} role="group" aria-label={words(props.label)}>
      <span className="soft">{words(props.label)}</span>
      {props.steps.map(({ says, run }) => (
        <button key={words(says)} type="button" className="button" onClick={() => void tell(run())}>
          {words(says)}
        </button>
      ))}
    </div>
  );
}
