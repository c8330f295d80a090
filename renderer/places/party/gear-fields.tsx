import type { ReactNode } from 'react';
import { failure } from '../../../core/result';
import { worded } from '../../../core/words/reader';
import { numberTrouble } from '../../../core/document/fields';
import type { Cylinder } from '../../../core/document/types';
import type { EditResult } from '../../actions/edit';
import { cylinderText } from '../../figures/format';
import { depthText, unitText } from '../../figures/format';
import { parseFigure } from '../../figures/parse';
import { fromUnit, toUnit, type Kind, type System as Units } from '../../../core/words/quantity';
import { wordsIn } from '../../figures/reader';
import { Field } from '../../parts/field';
import { stepped, UnitField } from '../../parts/number-field';
import { useDesk } from '../../store/store';

interface GearField {
  readonly commit: (value: number) => EditResult | void;
}

/** How deep a diver may go: never shown deeper than it is. */
export function DepthLimitField(
  props: GearField & { readonly label: string; readonly value: number },
): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  return (
    <Field
      label={props.label}
      value={props.value}
      show={(depthM) => depthText(depthM, units, 'down')}
      parse={(text) => parseFigure(text, 'depth', units)}
      commit={props.commit}
      step={stepBy('depth', units, 1)}
    />
  );
}

/** What a full cylinder holds: never shown fuller than it is, as on the card of a dive. */
export function FillField(props: GearField & { readonly value: number }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  return (
    <Field
      label="Fill"
      value={props.value}
      show={(bar) => unitText(bar, 'pressure', units, 'down')}
      parse={(text) => parseFigure(text, 'pressure', units)}
      commit={props.commit}
      step={stepBy('pressure', units, units === 'imperial' ? 100 : 10)}
    />
  );
}

function stepBy(kind: Kind, units: Units, size: number) {
  return (si: number, by: 1 | -1, large: boolean): number =>
    fromUnit(stepped(toUnit(si, kind, units), by, large ? size * 5 : size), kind, units);
}

/** What a diver breathes in a minute at the surface, litres or cubic feet. */
export function GasRateField(props: GearField & { readonly value: number }): ReactNode {
  const isImperial = useDesk(({ settings }) => settings.units === 'imperial');
  return (
    <UnitField
      label="Surface gas rate"
      kind="gas-rate"
      value={props.value}
      decimals={isImperial ? 2 : 1}
      step={isImperial ? 0.05 : 1}
      commit={props.commit}
    />
  );
}

/** The size of a cylinder as it is spoken of; `commit` is given its water volume in litres. */
export function CylinderField(props: GearField & { readonly cylinder: Cylinder }): ReactNode {
  const { cylinder, commit } = props;
  const settings = useDesk((state) => state.settings);
  const { fillBar } = cylinder;
  const put = (waterL: number): EditResult | void => {
    // Only here is it known to what the cylinder is filled, which a size in cubic feet hangs on.
    const trouble = numberTrouble('waterL', waterL);
    return trouble
      ? failure({ kind: 'invalid', where: '', ...worded(trouble, wordsIn({ ...settings, fillBar })) })
      : commit(waterL);
  };
  return settings.units === 'imperial' ? (
    <UnitField
      label="Cylinder, gas when full"
      kind="volume"
      value={cylinder.waterL * cylinder.fillBar}
      hint={`${cylinderText(cylinder, 'metric')} of water`}
      commit={(litres) => put(litres / fillBar)}
    />
  ) : (
    <UnitField label="Cylinder" kind="volume" value={cylinder.waterL} commit={commit} />
  );
}
