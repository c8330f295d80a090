import type { ReactNode } from 'react';
import { dateText } from '../../../core/slate/figures';
import { usualDates } from '../../../core/slate/next-day';
import { usualMarginMm } from '../../../core/slate/options';
import { LABEL_SIZES, usualLabel } from '../../../core/slate/labels';
import { readPaper, type HoleSide } from '../../../core/slate/paper';
import type { CardForm, SlateKind } from '../../../core/slate/request';
import type { SlateUnits } from '../../../core/slate/figures';
import { changeSettings } from '../../actions/view';
import { Choice, type Option } from '../../parts/choice';
import { useDesk } from '../../store/store';
import { choose, paperOf, useChoices } from './choices';
import { PaperChoice } from './paper-choice';
import { SinceChoice } from './since-choice';
import { Ticks } from './ticks';
import styles from './slate-options.module.css';
import ticks from './ticks.module.css';

const KINDS: readonly Option<SlateKind>[] = [
  { value: 'card', label: 'Day card' },
  { value: 'briefing', label: 'Briefing sheet' },
  { value: 'guest', label: 'Guest sheet' },
  { value: 'trip', label: 'Trip sheet' },
  { value: 'tags', label: 'Cylinder tags and log' },
  { value: 'depth', label: 'Depth card' },
];

const FORMS: readonly Option<CardForm>[] = [
  { value: 'full', label: 'Two dives a face' },
  { value: 'short', label: 'The day on a face' },
  { value: 'dive', label: 'One dive a page' },
];

const HOLES: readonly Option<HoleSide>[] = [
  { value: 'none', label: 'None' },
  { value: 'left', label: 'Left' },
  { value: 'right', label: 'Right' },
  { value: 'top', label: 'Top' },
];

const UNITS: readonly Option<SlateUnits | 'window'>[] = [
  { value: 'window', label: 'As in the window' },
  { value: 'metric', label: 'Metric' },
  { value: 'imperial', label: 'Imperial' },
  { value: 'both', label: 'Both' },
];

const MARGINS: readonly Option<string>[] = ['3', '4', '5', '6', '8', '10', '12', '15'].map((mm) => ({
  value: mm,
  label: `${mm} mm`,
}));

const SHEETS: readonly Option<string>[] = [
  { value: 'own', label: 'One page a sheet' },
  { value: 'A4', label: 'Several on A4, with cut marks' },
  { value: 'letter', label: 'Several on letter, with cut marks' },
];

function Tick(props: {
  readonly label: string;
  readonly checked: boolean;
  readonly commit: (on: boolean) => void;
}): ReactNode {
  return (
    <label className={styles.tick}>
      <input
        type="checkbox"
        checked={props.checked}
        onChange={(event) => props.commit(event.target.checked)}
      />
      {props.label}
    </label>
  );
}

/** The next diving day, every one, or some. */
function DayTicks({ dates }: { readonly dates: readonly string[] }): ReactNode {
  const { dates: chosen, kind } = useChoices();
  const picked = chosen ?? usualDates(kind);
  const some = typeof picked === 'string' ? [] : picked;
  const isAmong = (date: string): boolean => some.includes(date);
  const toggle = (date: string): void => {
    const after = dates.filter((each) => isAmong(each) !== (each === date));
    choose({ dates: after.length === 0 ? null : after });
  };
  const whole = { next: 'The next diving day', all: 'Every diving day' } as const;
  return (
    <fieldset className={ticks.ticks}>
      <legend>Days</legend>
      {(['next', 'all'] as const).map((value) => (
        <label key={value}>
          <input type="checkbox" checked={picked === value} onChange={() => choose({ dates: value })} />
          {whole[value]}
        </label>
      ))}
      {dates.map((date) => (
        <label key={date}>
          <input type="checkbox" checked={isAmong(date)} onChange={() => toggle(date)} />
          {dateText(date)}
        </label>
      ))}
    </fieldset>
  );
}

/** Everything that can be chosen of a print-out. */
export function SlateOptionsForm({ dates }: { readonly dates: readonly string[] }): ReactNode {
  const chosen = useChoices();
  const party = useDesk(({ trip }) => trip.party);
  const cardPaper = useDesk(({ settings }) => settings.paper);
  const { kind } = chosen;
  const paper = paperOf(chosen, cardPaper);
  const named = readPaper(paper);
  return (
    <div className={styles.options}>
      <Choice
        label="Kind"
        value={kind}
        options={KINDS}
        commit={(value) => choose({ kind: value })}
        wide={kind !== 'card'}
      />
      {kind === 'card' ? (
        <Choice label="Card" value={chosen.card} options={FORMS} commit={(card) => choose({ card })} />
      ) : null}
      <Ticks
        legend="Divers"
        all="The whole party"
        options={party.map(({ id, name }) => ({ value: id, label: name }))}
        chosen={chosen.diverIds}
        commit={(diverIds) => choose({ diverIds })}
      />
      <DayTicks dates={dates} />
      <PaperChoice
        label="Paper"
        value={paper}
        commit={(name) => {
          choose({ papers: { ...chosen.papers, [kind]: name } });
          if (kind === 'card') changeSettings({ paper: name });
        }}
      />
      {kind === 'tags' ? (
        <PaperChoice
          label="Tag"
          value={chosen.label ?? usualLabel().name}
          names={LABEL_SIZES}
          commit={(label) => choose({ label })}
        />
      ) : null}
      {kind === 'briefing' ? <SinceChoice /> : null}
      <Choice
        label="Units"
        value={chosen.units ?? 'window'}
        options={UNITS}
        commit={(units) => choose({ units: units === 'window' ? null : units })}
      />
      {kind === 'tags' ? null : (
        <Choice
          label="Sheets"
          value={chosen.sheet ?? 'own'}
          options={SHEETS}
          commit={(sheet) => choose({ sheet: sheet === 'own' ? null : sheet })}
          wide
        />
      )}
      <Choice
        label="Punched side"
        value={chosen.holes}
        options={HOLES}
        commit={(holes) => choose({ holes })}
      />
      <Choice
        label="Margin"
        value={String(chosen.marginMm ?? usualMarginMm(kind, named.ok ? named.value : null))}
        options={MARGINS}
        commit={(mm) => choose({ marginMm: Number(mm) })}
      />
      <Tick
        label="Printed on both sides"
        checked={chosen.twoSided}
        commit={(twoSided) => choose({ twoSided })}
      />
      {kind === 'card' && chosen.card === 'full' ? (
        <Tick
          label="Each face on a page of its own"
          checked={chosen.singleFaces}
          commit={(singleFaces) => choose({ singleFaces })}
        />
      ) : null}
    </div>
  );
}
