/** Fields for figures, in the units, decimal sign and clock of the settings. */
import type { ReactNode } from 'react';
import type { EditResult } from '../actions/edit';
import { clockText, depthText, hoursText, shareText, shortText } from '../figures/format';
import { parseClock, parseFigure, parseMinutes, parseNumber, parseShare } from '../figures/parse';
import { fromUnit, toUnit, unitOf, type Kind } from '../../core/words/quantity';
import { useDesk } from '../store/store';
import { Field } from './field';

interface Common {
  readonly label: string;
  readonly commit: (value: number) => EditResult | void;
  readonly hint?: ReactNode;
  readonly wide?: boolean;
}

/** To the next whole step in a direction, so that arrows leave no float dust: 22.3 steps up to 23. */
export function stepped(value: number, by: 1 | -1, size: number): number {
  const steps = value / size;
  const next = by === 1 ? Math.floor(steps + 1e-6) + 1 : Math.ceil(steps - 1e-6) - 1;
  return Number((next * size).toPrecision(12));
}

/** A depth, pressure, volume or rate; the value is SI, the text is in the chosen units. */
export function UnitField(
  props: Common & {
    readonly kind: Kind;
    readonly value: number;
    readonly decimals?: number;
    readonly step?: number;
  },
): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const { kind, label, value, commit, decimals = 1 } = props;
  const unit = unitOf(kind, units);
  const size =
    props.step ?? (kind === 'pressure' && units === 'imperial' ? 100 : kind === 'pressure' ? 10 : 1);
  return (
    <Field
      label={label}
      value={value}
      show={(si) =>
        kind === 'depth'
          ? depthText(si, units)
          : `${shortText(toUnit(si, kind, units), decimals)} ${unit.sign}`
      }
      parse={(text) => parseFigure(text, kind, units)}
      commit={commit}
      step={(si, by, large) =>
        fromUnit(stepped(toUnit(si, kind, units), by, large ? size * 5 : size), kind, units)
      }
      hint={props.hint}
      wide={props.wide ?? false}
      words={units}
    />
  );
}

/** A length of time in minutes; from 1:40 on it reads as hours and minutes. */
export function MinutesField(props: Common & { readonly value: number }): ReactNode {
  return (
    <Field
      label={props.label}
      value={props.value}
      show={(min) => (min >= 100 ? hoursText(min) : `${shortText(min, 1)} min`)}
      parse={parseMinutes}
      commit={props.commit}
      step={(min, by, large) => stepped(min, by, large ? 5 : 1)}
      hint={props.hint}
      wide={props.wide ?? false}
    />
  );
}

/** A number without a unit, or with one that is the same to every reader and may be typed behind it. */
export function PlainNumberField(
  props: Common & {
    readonly value: number;
    readonly decimals?: number;
    readonly step?: number;
    readonly sign?: string;
  },
): ReactNode {
  const { sign } = props;
  const bare = (text: string): string =>
    sign !== undefined && text.trim().toLowerCase().endsWith(sign)
      ? text.trim().slice(0, -sign.length)
      : text;
  return (
    <Field
      label={props.label}
      value={props.value}
      show={(value) => shortText(value, props.decimals ?? 2)}
      parse={(text) => parseNumber(bare(text))}
      commit={props.commit}
      step={(value, by, large) => stepped(value, by, (props.step ?? 1) * (large ? 5 : 1))}
      hint={props.hint}
      wide={props.wide ?? false}
    />
  );
}

/** A fraction shown and typed as percent. */
export function ShareField(props: Common & { readonly value: number }): ReactNode {
  return (
    <Field
      label={props.label}
      value={props.value}
      show={shareText}
      parse={parseShare}
      commit={props.commit}
      step={(share, by, large) => stepped(share * 100, by, large ? 5 : 1) / 100}
      hint={props.hint}
      wide={props.wide ?? false}
    />
  );
}

const DAY_MIN = 1440;

/** A time of day as "13:10"; arrows step five minutes, with Shift an hour, and stop at midnight. */
export function ClockField(props: {
  readonly label: string;
  readonly value: string;
  readonly commit: (value: string) => EditResult | void;
}): ReactNode {
  const clock = useDesk(({ settings }) => settings.clock);
  return (
    <Field
      label={props.label}
      value={props.value}
      show={(time) => clockText(`0000-00-00T${time}`, clock)}
      parse={(text) => parseClock(text, clock)}
      commit={props.commit}
      step={(time, by, large) => {
        const [hour = 0, minute = 0] = time.split(':').map(Number);
        const next = stepped(hour * 60 + minute, by, large ? 60 : 5);
        if (next < 0 || next >= DAY_MIN) return time;
        return `${String(Math.floor(next / 60)).padStart(2, '0')}:${String(next % 60).padStart(2, '0')}`;
      }}
    />
  );
}
