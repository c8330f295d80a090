import type { ReactNode } from 'react';
import { dateText } from '../../../core/slate/figures';
import { LABEL_SIZES, usualLabel } from '../../../core/slate/labels';
import type { HoleSide } from '../../../core/slate/paper';
import type { SlateKind } from '../../../core/slate/request';
import type { SlateUnits } from '../../../core/slate/figures';
import { changeSettings } from '../../actions/view';
import { Choice, type Option } from '../../parts/choice';
import { useDesk } from '../../store/store';
import { choose, paperOf, useChoices } from './choices';
import { PaperChoice } from './paper-choice';
import { Ticks } from './ticks';

const KINDS: readonly Option<SlateKind>[] = [
  { value: 'wet', label: 'Wet-notes slate' },
  { value: 'briefing', label: 'Briefing sheet' },
  { value: 'trip', label: 'Trip sheet' },
  { value: 'tags', label: 'Cylinder tags and log' },
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

const MARGINS: readonly Option<string>[] = ['4', '6', '8', '10', '15'].map((mm) => ({
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
    <label className="tick">
      <input
        type="checkbox"
        checked={props.checked}
        onChange={(event) => props.commit(event.target.checked)}
      />
      {props.label}
    </label>
  );
}

/** Everything that can be chosen of a print-out. */
export function SlateOptionsForm({ dates }: { readonly dates: readonly string[] }): ReactNode {
  const chosen = useChoices();
  const party = useDesk(({ trip }) => trip.party);
  const wetPaper = useDesk(({ settings }) => settings.paper);
  const { kind } = chosen;
  const paper = paperOf(chosen, wetPaper);
  return (
    <div className="slate-options">
      <Choice label="Kind" value={kind} options={KINDS} commit={(value) => choose({ kind: value })} wide />
      <Ticks
        legend="Divers"
        all="The whole party"
        options={party.map(({ id, name }) => ({ value: id, label: name }))}
        chosen={chosen.diverIds}
        commit={(diverIds) => choose({ diverIds })}
      />
      <Ticks
        legend="Days"
        all="Every diving day"
        options={dates.map((date) => ({ value: date, label: dateText(date) }))}
        chosen={chosen.dates}
        commit={(days) => choose({ dates: days })}
      />
      <PaperChoice
        label="Paper"
        value={paper}
        commit={(name) => {
          choose({ papers: { ...chosen.papers, [kind]: name } });
          if (kind === 'wet') changeSettings({ paper: name });
        }}
      />
      {kind === 'tags' ? (
        <PaperChoice
          label="Tag"
          value={chosen.label ?? usualLabel(paper).name}
          names={LABEL_SIZES}
          commit={(label) => choose({ label })}
        />
      ) : null}
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
        value={String(chosen.marginMm)}
        options={MARGINS}
        commit={(mm) => choose({ marginMm: Number(mm) })}
      />
      <Tick
        label="Printed on both sides"
        checked={chosen.twoSided}
        commit={(twoSided) => choose({ twoSided })}
      />
      {kind === 'wet' ? (
        <Tick
          label="One dive a page, larger type"
          checked={chosen.onePerPage}
          commit={(onePerPage) => choose({ onePerPage })}
        />
      ) : null}
    </div>
  );
}
