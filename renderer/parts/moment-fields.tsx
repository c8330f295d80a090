import type { ReactNode } from 'react';
import type { EditResult } from '../actions/edit';
import { DateField } from './date-field';
import { ClockField } from './number-field';
import type { WallTime } from '../../core/words/calendar';

/** A moment of the trip as its day and its time of day, each a field. */
export function MomentFields(props: {
  readonly dayLabel: string;
  readonly timeLabel: string;
  readonly value: WallTime;
  readonly commit: (value: WallTime) => EditResult | void;
}): ReactNode {
  const { dayLabel, timeLabel, value, commit } = props;
  const [day = '', time = ''] = value.split('T');
  return (
    <>
      <DateField label={dayLabel} value={day} commit={(next) => commit(`${next}T${time}`)} />
      <ClockField label={timeLabel} value={time} commit={(next) => commit(`${day}T${next}`)} />
    </>
  );
}
