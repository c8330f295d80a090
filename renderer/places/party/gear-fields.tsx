import type { ReactNode } from 'react';
import { failure } from '../../../core/result';
import { worded } from '../../../core/words/reader';
import { numberTrouble } from '../../../core/document/fields';
import type { Cylinder } from '../../../core/document/types';
import type { EditResult } from '../../actions/edit';
import { cylinderText } from '../../figures/format';
import { depthText, unitText } from '../../figures/format';
import { parseFigure } from '../../figures/parse';
import { parseCylinder, USUAL_CYLINDERS, type TypedCylinder } from '../../figures/parse-cylinder';
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
      step={stepBy('depth', units, units === 'imperial' ? 10 : 1)}
    />
  );
}

/** What a full cylinder holds: never shown fuller than it is, as on the card of a dive. */
export function FillField(props: GearField & { readonly value: number; readonly label?: string }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  return (
    <Field
      label={props.label ?? 'Fill'}
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
      label="Surface gas rate (RMV)"
      kind="gas-rate"
      value={props.value}
      decimals={isImperial ? 2 : 1}
      step={isImperial ? 0.05 : 1}
      commit={props.commit}
    />
  );
}

/** The next whole litre of water, or the next five cubic feet of gas. */
function steppedSize(value: TypedCylinder, ownBar: number, units: Units, by: number): TypedCylinder {
  const isGas = units === 'imperial';
  const [per, size] = isGas ? [ownBar, 5] : [1, 1];
  const next = stepped(toUnit(value.waterL * per, 'volume', units), by > 0 ? 1 : -1, size * Math.abs(by));
  return { ...value, waterL: fromUnit(next, 'volume', units) / per };
}

/** What was typed of a cylinder: its water, and its fill where that was said with it. */
export type CylinderPatch = Pick<Cylinder, 'waterL'> & Partial<Pick<Cylinder, 'fillBar'>>;

/** The size of a cylinder as it is spoken of: "12", "2x12", "80 cu ft at 3000 psi". */
export function CylinderField(props: {
  readonly label?: string;
  readonly cylinder: Cylinder;
  readonly commit: (patch: CylinderPatch) => EditResult | void;
}): ReactNode {
  const { cylinder, commit } = props;
  const settings = useDesk((state) => state.settings);
  const { units } = settings;
  const put = ({ waterL, fillBar }: TypedCylinder): EditResult | void => {
    // Only here is it known to what the cylinder is filled, which a size in cubic feet hangs on.
    const words = wordsIn({ ...settings, fillBar: fillBar ?? cylinder.fillBar });
    const trouble =
      numberTrouble('waterL', waterL) ?? (fillBar === null ? null : numberTrouble('fillBar', fillBar));
    if (trouble) return failure({ kind: 'invalid', where: '', ...worded(trouble, words) });
    return commit({ waterL, ...(fillBar === null ? {} : { fillBar }) });
  };
  return (
    <Field<TypedCylinder>
      label={props.label ?? 'Cylinder'}
      value={{ waterL: cylinder.waterL, fillBar: null }}
      show={({ waterL }) => cylinderText({ ...cylinder, waterL }, units)}
      parse={(text) => parseCylinder(text, units, cylinder.fillBar)}
      commit={put}
      step={(value, by, large) => steppedSize(value, cylinder.fillBar, units, by * (large ? 5 : 1))}
      offers={USUAL_CYLINDERS[units]}
      words={units}
      hint={units === 'imperial' ? 'as 80, or 80 cu ft at 3000 psi' : 'as 12, 2x12, or 12 L at 232 bar'}
    />
  );
}
