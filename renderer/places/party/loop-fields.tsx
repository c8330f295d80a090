import type { ReactNode } from 'react';
import type { BailOut, Cylinder, Diver, LoopGear } from '../../../core/document/types';
import { tell, type EditResult } from '../../actions/edit';
import { addLoop, removeLoop, setLoop } from '../../actions/loop-gear';
import { Folded } from '../../parts/folded';
import { MixChoice } from '../../parts/mix-choice';
import { PlainNumberField, UnitField } from '../../parts/number-field';
import { CylinderField, FillField } from './gear-fields';
import styles from './diver-fields.module.css';

/** A diver's breathing loop, each part of it a field; a way to give one where there is none. */
export function LoopFields({ diver }: { readonly diver: Diver }): ReactNode {
  const { id, loop } = diver;
  if (loop === undefined) {
    return (
      <p>
        <button type="button" className="linked" onClick={() => void tell(addLoop(id))}>
          Dives on a breathing loop
        </button>
      </p>
    );
  }
  return (
    <Folded about={id} summary="Breathing loop" opens={false}>
      {() => <Fields diver={diver} loop={loop} />}
    </Folded>
  );
}

function Fields({ diver, loop }: { readonly diver: Diver; readonly loop: LoopGear }): ReactNode {
  const { id } = diver;
  const { setpoints, bailOut } = loop;
  const put = (patch: Partial<LoopGear>): EditResult => setLoop(id, patch);
  const putBailOut = (at: number, patch: Partial<BailOut>): EditResult =>
    put({ bailOut: bailOut.map((each, i) => (i === at ? { ...each, ...patch } : each)) });
  return (
    <div className={styles.fields}>
      <PlainNumberField
        label="Low setpoint, bar"
        value={setpoints.lowBar}
        step={0.1}
        sign="bar"
        commit={(lowBar) => put({ setpoints: { ...setpoints, lowBar } })}
      />
      <PlainNumberField
        label="High setpoint, bar"
        value={setpoints.highBar}
        step={0.1}
        sign="bar"
        commit={(highBar) => put({ setpoints: { ...setpoints, highBar } })}
      />
      <UnitField
        label="High from this depth on"
        kind="depth"
        value={setpoints.switchM}
        commit={(switchM) => put({ setpoints: { ...setpoints, switchM } })}
      />
      <PlainNumberField
        label="A fresh scrubber lasts, minutes"
        sign="min"
        decimals={1}
        step={5}
        value={loop.scrubberMin}
        commit={(scrubberMin) => put({ scrubberMin })}
      />
      <MixChoice label="Diluent" value={loop.diluent} commit={(diluent) => put({ diluent })} />
      <UnitField
        label="Gas rate on bail-out"
        kind="gas-rate"
        value={loop.bailOutRateLpm ?? 2 * diver.surfaceRateLpm}
        commit={(bailOutRateLpm) => put({ bailOutRateLpm })}
      />
      <CylinderFields
        name="Oxygen"
        cylinder={loop.oxygenCylinder}
        commit={(oxygenCylinder) => put({ oxygenCylinder })}
      />
      <CylinderFields
        name="Diluent"
        cylinder={loop.diluentCylinder}
        commit={(diluentCylinder) => put({ diluentCylinder })}
      />
      {bailOut.map(({ mix, cylinder }, at) => {
        const name = bailOut.length === 1 ? 'Bail-out' : `Bail-out ${at + 1}`;
        return [
          <MixChoice
            key={`${name} mix`}
            label={name}
            value={mix}
            commit={(chosen) => putBailOut(at, { mix: chosen })}
          />,
          <CylinderFields
            key={`${name} cylinder`}
            name={name}
            cylinder={cylinder}
            commit={(changed) => putBailOut(at, { cylinder: changed })}
          />,
        ];
      })}
      <button
        type="button"
        className="linked"
        onClick={() => void tell(put({ bailOut: [...bailOut, bailOut[bailOut.length - 1]!] }))}
      >
        Add a bail-out cylinder
      </button>
      {bailOut.length > 1 ? (
        <button
          type="button"
          className="linked"
          onClick={() => void tell(put({ bailOut: bailOut.slice(0, -1) }))}
        >
          Remove the last bail-out cylinder
        </button>
      ) : null}
      <button type="button" className="linked" onClick={() => void tell(removeLoop(id))}>
        Dives on open circuit alone
      </button>
    </div>
  );
}

/** Size, fill and reserve of a cylinder of the loop. */
function CylinderFields(props: {
  readonly name: string;
  readonly cylinder: Cylinder;
  readonly commit: (cylinder: Cylinder) => EditResult;
}): ReactNode {
  const { name, cylinder, commit } = props;
  return (
    <>
      <CylinderField
        label={`${name} cylinder`}
        cylinder={cylinder}
        commit={(patch) => commit({ ...cylinder, ...patch })}
      />
      <FillField
        label={`${name} fill`}
        value={cylinder.fillBar}
        commit={(fillBar) => commit({ ...cylinder, fillBar })}
      />
      <UnitField
        label={`${name} reserve`}
        kind="pressure"
        value={cylinder.reserveBar}
        decimals={0}
        commit={(reserveBar) => commit({ ...cylinder, reserveBar })}
      />
    </>
  );
}
