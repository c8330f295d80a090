import type { ReactNode } from 'react';
import type { Trouble } from '../../../core/result';
import type { Trip } from '../../../core/document/types';
import { mixText } from '../../figures/format';
import { waterChoices } from '../../figures/waters';
import { Choice } from '../../parts/choice';
import { DateField } from '../../parts/date-field';
import { Field, TextField } from '../../parts/field';
import { MomentFields } from '../../parts/moment-fields';
import { ClockField, MinutesField, PlainNumberField, UnitField } from '../../parts/number-field';
import { useDesk } from '../../store/store';
import { CylinderField, DepthLimitField, FillField, GasRateField } from '../party/gear-fields';
import type { ReadSiteList } from '../sites/site-list';
import { SiteListInput } from '../sites/site-list-input';
import { namesText, parseNames, parseShares, parseTimes, sharesText, timesText } from './lists';
import { firstFlight, isWithoutSites, type StartingForm } from './starting-form';
import { changeForm, useStartingView } from './starting-view';
import styles from './starting.module.css';
import refusal from '../../parts/refusal-line.module.css';

/** The parts of the form, and which answers each of them asks for. */
type Part = 'what' | 'when' | 'where' | 'who' | 'gas';
const ASKED: Readonly<Record<Part, readonly string[]>> = {
  what: ['title', 'place', 'water', 'settings'],
  when: ['firstDay', 'nights', 'times', 'night', 'longestMin', 'flight'],
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

/** So many are told beside a question: what is wrong with most of them has one cause. */
const TOLD = 4;

function Troubles({ part }: { readonly part: Part }): ReactNode {
  const troubles = useTroubles(part);
  return (
    <div role="status">
      {troubles.slice(0, TOLD).map(({ what, where, mend }) => (
        <div key={`${where}${what}`} className={refusal.refusal}>
          {what} {mend}
        </div>
      ))}
      {troubles.length > TOLD ? (
        <div className={refusal.refusal}>And {troubles.length - TOLD} more.</div>
      ) : null}
    </div>
  );
}

/** Takes something over from the trip on screen. */
function Take(props: { readonly what: keyof StartingForm['takes']; readonly label: string }): ReactNode {
  const takes = useStartingView(({ form }) => form.takes);
  const { what, label } = props;
  return (
    <label className={styles.tick}>
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
    <div className={styles.fields}>
      <When form={form} />
      <Where form={form} open={open} read={read} />
      <Gas form={form} open={open} />
      <Who form={form} open={open} />
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
        label="Dives start at"
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
      <Night form={form} />
      {form.nights > MOST_NIGHTS_WITHOUT_REST ? (
        <label className={styles.tick}>
          <input
            type="checkbox"
            checked={form.rests}
            onChange={(event) => changeForm({ rests: event.target.checked })}
          />
          A day of rest after six diving days at most
        </label>
      ) : null}
      {flight === null ? (
        <button
          type="button"
          className={`linked ${styles.whole}`}
          onClick={() => changeForm({ flight: firstFlight(form) })}
        >
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
          <button
            type="button"
            className={`linked ${styles.whole}`}
            onClick={() => changeForm({ flight: null })}
          >
            No flight
          </button>
        </>
      )}
      <Troubles part="when" />
    </fieldset>
  );
}

/** Seven nights have six diving days: a rest is a question on longer trips alone. */
const MOST_NIGHTS_WITHOUT_REST = 7;

const NIGHTS = [
  { value: 'none', label: 'None' },
  { value: 'once', label: 'One evening' },
  { value: 'every other', label: 'Every other evening' },
  { value: 'every', label: 'Every evening but first and last' },
] as const;

const NIGHT_TIME = '18:30';

function Night({ form }: { readonly form: StartingForm }): ReactNode {
  const { night } = form;
  return (
    <>
      <Choice
        label="Night dives"
        value={night?.on ?? 'none'}
        options={NIGHTS}
        commit={(on) => changeForm({ night: on === 'none' ? null : { time: night?.time ?? NIGHT_TIME, on } })}
      />
      {night === null ? (
        <span />
      ) : (
        <ClockField
          label="Night dives start at"
          value={night.time}
          commit={(time) => changeForm({ night: { ...night, time } })}
        />
      )}
    </>
  );
}

interface WithOpen {
  readonly form: StartingForm;
  readonly open: Trip;
}

const SHAPES = [
  { value: 'stay', label: 'One depth throughout' },
  { value: 'rise', label: 'Walls and slopes: deep, then shallower in thirds' },
] as const;

function Where({ form, open, read }: WithOpen & { readonly read: ReadSiteList }): ReactNode {
  return (
    <fieldset>
      <legend>Where</legend>
      {open.sites.length > 0 ? (
        <Take what="sites" label={`The ${open.sites.length} sites of “${open.title}”`} />
      ) : null}
      <div className={styles.whole}>
        <SiteListInput
          label="Sites"
          list={form.list}
          read={read}
          change={(list) => changeForm({ list })}
          rows={5}
        />
      </div>
      <Choice
        label="Sites without levels"
        value={form.rising ? 'rise' : 'stay'}
        options={SHAPES}
        commit={(shape) => changeForm({ rising: shape === 'rise' })}
        wide
      />
      {isWithoutSites(form) ? null : <Troubles part="where" />}
    </fieldset>
  );
}

function Who({ form, open }: WithOpen): ReactNode {
  const { usual } = form;
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
            label="Depth limit, each"
            value={usual.maxDepthM}
            commit={(maxDepthM) => changeForm({ usual: { ...usual, maxDepthM } })}
          />
          <p className={`soft ${styles.note}`}>Everything else about a diver can be set under Party later.</p>
        </>
      )}
      <Troubles part="who" />
    </fieldset>
  );
}

function Gas({ form, open }: WithOpen): ReactNode {
  const { usual } = form;
  const put = (patch: Partial<StartingForm['usual']>): void => changeForm({ usual: { ...usual, ...patch } });
  return (
    <fieldset>
      <legend>Gas</legend>
      {form.takes.party ? null : (
        <>
          <CylinderField
            cylinder={usual.cylinder}
            commit={(patch) => put({ cylinder: { ...usual.cylinder, ...patch } })}
          />
          <FillField
            value={usual.cylinder.fillBar}
            commit={(fillBar) => put({ cylinder: { ...usual.cylinder, fillBar } })}
          />
          <GasRateField value={usual.surfaceRateLpm} commit={(surfaceRateLpm) => put({ surfaceRateLpm })} />
        </>
      )}
      {form.takes.mixes ? null : (
        <Field
          label="Mixes, % oxygen"
          value={form.shares}
          show={sharesText}
          parse={parseShares}
          commit={(shares) => changeForm({ shares })}
        />
      )}
      <Take
        what="mixes"
        label={`The mixes of “${open.title}”: ${open.mixes.map(({ o2 }) => mixText(o2)).join(', ')}`}
      />
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
