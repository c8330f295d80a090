import type { ReactNode } from 'react';
import type { Trouble } from '../../../core/result';
import type { Trip } from '../../../core/document/types';
import { mixText } from '../../figures/format';
import { waterChoices } from '../../figures/waters';
import { Choice } from '../../parts/choice';
import { DateField } from '../../parts/date-field';
import { Field, TextField } from '../../parts/field';
import { MomentFields } from '../../parts/moment-fields';
import { MinutesField, PlainNumberField, UnitField } from '../../parts/number-field';
import { useDesk } from '../../store/store';
import { CylinderField, DepthLimitField, FillField, GasRateField } from '../party/gear-fields';
import type { ReadSiteList } from '../sites/site-list';
import { SiteListInput } from '../sites/site-list-input';
import { namesText, parseNames, parseShares, parseTimes, sharesText, timesText } from './lists';
import { firstFlight, isWithoutSites, type StartingForm } from './starting-form';
import { changeForm, useStartingView } from './starting-view';

/** The parts of the form, and which answers each of them asks for. */
type Part = 'what' | 'when' | 'where' | 'who' | 'gas';
const ASKED: Readonly<Record<Part, readonly string[]>> = {
  what: ['title', 'place', 'water', 'settings'],
  when: ['firstDay', 'nights', 'times', 'longestMin', 'flight'],
  where: ['sites'],
  who: ['party'],
  gas: ['mixes'],
};

function useTroubles(part: Part): readonly Trouble[] {
  const laidOut = useStartingView((view) => view.laidOut);
  if (laidOut.kind !== 'done' || laidOut.result.ok) return [];
  const known = Object.values(ASKED).flat();
  return laidOut.result.troubles.filter(({ where }) => {
    const answer = /^\w*/.exec(where)?.[0] ?? '';
    // What belongs to no question is said with the first, not left out.
    return ASKED[part].includes(answer) || (part === 'what' && !known.includes(answer));
  });
}

function Troubles({ part }: { readonly part: Part }): ReactNode {
  const troubles = useTroubles(part);
  return (
    <div role="status">
      {troubles.map(({ what, where, mend }) => (
        <div key={`${where}${what}`} className="field-refusal">
          {what} {mend}
        </div>
      ))}
    </div>
  );
}

/** Takes something over from the trip on screen. */
function Take(props: { readonly what: keyof StartingForm['takes']; readonly label: string }): ReactNode {
  const takes = useStartingView(({ form }) => form.takes);
  const { what, label } = props;
  return (
    <label className="tick">
      <input
        type="checkbox"
        checked={takes[what]}
        onChange={(event) => changeForm({ takes: { ...takes, [what]: event.target.checked } })}
      />
      {label}
    </label>
  );
}

/** The questions. @param open the trip on screen, to take over from @param read what the list of sites says */
export function StartingFields(props: { readonly open: Trip; readonly read: ReadSiteList }): ReactNode {
  const { open, read } = props;
  const form = useStartingView((view) => view.form);
  return (
    <div className="starting-fields">
      <When form={form} />
      <Where form={form} open={open} read={read} />
      <Who form={form} open={open} />
      <OnWhat form={form} open={open} />
      <What form={form} />
    </div>
  );
}

function When({ form }: { readonly form: StartingForm }): ReactNode {
  const clock = useDesk(({ settings }) => settings.clock);
  const { flight } = form;
  return (
    <fieldset>
      <legend>When</legend>
      <DateField label="First day" value={form.firstDay} commit={(firstDay) => changeForm({ firstDay })} />
      <PlainNumberField
        label="Nights"
        value={form.nights}
        decimals={2}
        commit={(nights) => changeForm({ nights })}
      />
      <Field
        label="Dives of a day start at"
        value={form.times}
        show={(times) => timesText(times, clock)}
        parse={(text) => parseTimes(text, clock)}
        commit={(times) => changeForm({ times })}
        wide
      />
      <MinutesField
        label="Longest dive"
        value={form.longestMin}
        commit={(longestMin) => changeForm({ longestMin })}
      />
      {flight === null ? (
        <button type="button" className="linked" onClick={() => changeForm({ flight: firstFlight(form) })}>
          Add the flight home
        </button>
      ) : (
        <>
          <span />
          <MomentFields
            dayLabel="Flight home"
            timeLabel="Take-off"
            value={flight}
            commit={(at) => changeForm({ flight: at })}
          />
          <button type="button" className="linked" onClick={() => changeForm({ flight: null })}>
            There is no flight
          </button>
        </>
      )}
      <Troubles part="when" />
    </fieldset>
  );
}

interface WithOpen {
  readonly form: StartingForm;
  readonly open: Trip;
}

function Where({ form, open, read }: WithOpen & { readonly read: ReadSiteList }): ReactNode {
  return (
    <fieldset>
      <legend>Where</legend>
      {open.sites.length > 0 ? (
        <Take what="sites" label={`The ${open.sites.length} sites of “${open.title}”`} />
      ) : null}
      <SiteListInput
        label="Sites"
        list={form.list}
        read={read}
        change={(list) => changeForm({ list })}
        rows={5}
      />
      {isWithoutSites(form) ? null : <Troubles part="where" />}
    </fieldset>
  );
}

function Who({ form, open }: WithOpen): ReactNode {
  const { usual } = form;
  const put = (patch: Partial<StartingForm['usual']>): void => changeForm({ usual: { ...usual, ...patch } });
  return (
    <fieldset>
      <legend>Who</legend>
      <Take what="party" label={`The party of “${open.title}”, with gear and limits`} />
      {form.takes.party ? null : (
        <>
          <Field
            label="Names, or how many"
            value={form.names}
            show={namesText}
            parse={parseNames}
            commit={(names) => changeForm({ names })}
            wide
          />
          <DepthLimitField
            label="Depth limit of each"
            value={usual.maxDepthM}
            commit={(maxDepthM) => put({ maxDepthM })}
          />
          <GasRateField value={usual.surfaceRateLpm} commit={(surfaceRateLpm) => put({ surfaceRateLpm })} />
          <CylinderField
            cylinder={usual.cylinder}
            commit={(waterL) => put({ cylinder: { ...usual.cylinder, waterL } })}
          />
          <FillField
            value={usual.cylinder.fillBar}
            commit={(fillBar) => put({ cylinder: { ...usual.cylinder, fillBar } })}
          />
          <p className="soft wide-note">Everything else of each diver can be set under Party afterwards.</p>
        </>
      )}
      <Troubles part="who" />
    </fieldset>
  );
}

function OnWhat({ form, open }: WithOpen): ReactNode {
  return (
    <fieldset>
      <legend>On what</legend>
      <Take
        what="mixes"
        label={`The mixes of “${open.title}”: ${open.mixes.map(({ o2 }) => mixText(o2)).join(', ')}`}
      />
      {form.takes.mixes ? null : (
        <Field
          label="Oxygen of each mix, %"
          value={form.shares}
          show={sharesText}
          parse={parseShares}
          commit={(shares) => changeForm({ shares })}
          wide
        />
      )}
      <Troubles part="gas" />
    </fieldset>
  );
}

function What({ form }: { readonly form: StartingForm }): ReactNode {
  const { water } = form;
  const units = useDesk(({ settings }) => settings.units);
  const put = (patch: Partial<StartingForm['water']>): void => changeForm({ water: { ...water, ...patch } });
  return (
    <fieldset>
      <legend>The trip</legend>
      <TextField label="Title" value={form.title} required commit={(title) => changeForm({ title })} />
      <TextField label="Place" value={form.place} commit={(place) => changeForm({ place })} />
      <Choice
        label="Water"
        value={typeof water.density === 'number' ? 'gauge' : water.density}
        options={waterChoices(units)}
        commit={(density) => put({ density })}
      />
      <UnitField
        label="Altitude of the water"
        kind="depth"
        value={water.altitudeM}
        decimals={0}
        step={50}
        commit={(altitudeM) => put({ altitudeM })}
      />
      <Troubles part="what" />
    </fieldset>
  );
}
