import { describe, expect, it } from 'vitest';
import { ledger } from '../../../../core/ledger/ledger';
import type { Dive, LoopGear } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { codes, of, only } from '../../../support/cautions';
import { A_LOOP } from '../../../support/loop-trip';

const BIG = { waterL: 15, fillBar: 200, reserveBar: 20 };
const SMALL = { waterL: 2, fillBar: 60, reserveBar: 50 };

function loop(change: Partial<LoopGear> = {}, dive: Partial<Dive> = {}) {
  const gear = { ...A_LOOP, bailOut: [{ mix: 'air', cylinder: BIG }], ...change };
  return ledger(aTrip([aDive({ loops: [{ by: 'guest-1' }], ...dive })], { party: [aDiver({ loop: gear })] }));
}

const set = (highBar: number) => ({ setpoints: { lowBar: 0.7, highBar, switchM: 6 } });

/** With a contingency limit below what clocks still know. */
function strict(highBar: number) {
  const po2 = { working: 1.4, contingency: 1.5 };
  const gear = { ...A_LOOP, bailOut: [{ mix: 'air', cylinder: BIG }], ...set(highBar) };
  return ledger(aTrip([aDive({ loops: [{ by: 'guest-1' }] })], { party: [aDiver({ loop: gear, po2 })] }));
}

describe('cautions on loops', () => {
  it('say once that such diving belongs to other training, and nothing of it without a loop', () => {
    expect(only('loop-training', loop()).message).toContain('training of its own');
    expect(codes(ledger(aTrip([aDive()])))).not.toContain('loop-training');
    expect(codes(loop()).filter((code) => /setpoint|bail-out|diluent|loop-gas|scrubber/.test(code))).toEqual(
      [],
    );
  });

  it('tell a setpoint above the working and the contingency PO2', () => {
    expect(only('setpoint-above-working', loop(set(1.5))).message).toContain('above the working 1.4 bar');
    expect(only('setpoint-above-contingency', strict(1.55)).severity).toBe('stop');
  });

  it('tell a diluent that is too rich', () => {
    const rich = { diluent: 'rich' };
    expect(of('diluent-below-mod', loop(rich, { depthM: 30 }))).toHaveLength(1);
    expect(only('diluent-below-mod', loop(rich, { depthM: 30 })).message).toContain('below the MOD of 28 m');
    const above = only('diluent-above-setpoint', loop({ ...rich, ...set(0.9) }, { depthM: 25 }));
    expect(above.message).toContain('cannot be held down');
  });

  it('tell bail-out that may not be breathed, or does not last', () => {
    const rich = [{ mix: 'rich', cylinder: BIG }];
    expect(only('bail-out-below-mod', loop({ bailOut: rich }, { depthM: 32 })).message).toContain(
      'MOD of 28 m',
    );
    const little = [{ mix: 'air', cylinder: SMALL }];
    const short = only('bail-out-short', loop({ bailOut: little }));
    expect(short.severity).toBe('stop');
    expect(short.message).toMatch(/^Leaving the loop at 20 m after 20 min takes \d+ L of Air/);
  });

  it('tell oxygen, diluent and scrubber that do not last', () => {
    expect(only('loop-gas-short', loop({ oxygenCylinder: SMALL })).message).toContain('of oxygen are left');
    expect(only('loop-gas-short', loop({ diluentCylinder: { ...SMALL, fillBar: 52 } })).message).toContain(
      'diluent',
    );
    const out = loop({ oxygenCylinder: { waterL: 1, fillBar: 20, reserveBar: 0 } }, { bottomMin: 40 });
    expect(only('loop-gas-short', out).message).toContain('does not last to the surface');
    expect(only('scrubber-short', loop({ scrubberMin: 20 })).message).toContain('pack it afresh');
  });
});
