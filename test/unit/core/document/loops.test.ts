import { describe, expect, it } from 'vitest';
import { checkTrip } from '../../../../core/document/check-trip';
import { readTrip } from '../../../../core/document/read-trip';
import { withLoopsOf } from '../../../../core/document/loops';
import { writeTrip } from '../../../../core/document/write-trip';
import type { LoopGear, OnLoop, Trip } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { A_LOOP, loopTrip } from '../../../support/loop-trip';

function trip(gear: Partial<LoopGear> | null, loops: readonly OnLoop[] = [{ by: 'guest-1' }]): Trip {
  const loop = gear === null ? {} : { loop: { ...A_LOOP, ...gear } };
  return aTrip([aDive({ loops, divers: ['guest-1'] })], {
    party: [aDiver(loop), aDiver({ id: 'guest-2', name: 'Guest 2' })],
  });
}

function whats(of: Trip): readonly string[] {
  return checkTrip(of).map(({ what, where }) => `${where}: ${what}`);
}

describe('loops in a trip file', () => {
  it('are read back as they were written', () => {
    const written = writeTrip(loopTrip({ bailOutRateLpm: 30 }, { freshScrubber: true, diluent: 'air' }));
    const read = readTrip(written);
    expect(read.ok && writeTrip(read.value)).toBe(written);
  });

  it('name a diver who is on the dive and has a loop, once, and mixes of the trip', () => {
    expect(whats(trip({}))).toEqual([]);
    expect(whats(trip(null)).join()).toContain('makes this dive on a loop, but has none');
    expect(whats(trip({}, [{ by: 'guest-2' }])).join()).toContain('is not on this dive, but on a loop');
    expect(whats(trip({}, [{ by: 'nobody' }])).join()).toContain('There is no diver "nobody"');
    expect(whats(trip({}, [{ by: 'guest-1' }, { by: 'guest-1' }])).join()).toContain('is on a loop twice');
    expect(whats(trip({ diluent: 'helium' })).join()).toContain('There is no mix "helium"');
    expect(whats(trip({}, [{ by: 'guest-1', diluent: 'helium' }])).join()).toContain(
      'There is no mix "helium"',
    );
    const strange = [{ mix: 'helium', cylinder: A_LOOP.oxygenCylinder }];
    expect(whats(trip({ bailOut: strange })).join()).toContain('loop.bailOut[0].mix');
  });

  it('keep setpoints in order and reserves below fills', () => {
    const setpoints = { lowBar: 1.3, highBar: 0.7, switchM: 6 };
    expect(whats(trip({ setpoints })).join()).toContain('The low setpoint is above the high one.');
    expect(whats(trip({}, [{ by: 'guest-1', setpoints }])).join()).toContain('The low setpoint');
    const oxygenCylinder = { waterL: 3, fillBar: 30, reserveBar: 50 };
    expect(whats(trip({ oxygenCylinder })).join()).toContain('leaves nothing of a fill');
    expect(whats(trip({ bailOut: [] })).join()).toContain('Bail-out: the list is empty.');
  });

  it('have no pressure of a cylinder and no analysed share in a record of their diver: nothing would come of either', () => {
    const [dive] = trip({}).dives;
    const logged = (record: object, loops = dive!.loops!) =>
      whats({ ...trip({}), dives: [{ ...dive!, loops, asDived: [record] }] } as Trip);
    expect(logged({ by: 'guest-1', bottomMin: 20 })).toEqual([]);
    expect(logged({ endBar: 60, o2: 0.32 })).toEqual([]);
    expect(logged({ by: 'guest-1', endBar: 60, o2: 0.32 })).toEqual([
      expect.stringMatching(
        /asDived\[0\]\.endBar.*on a loop, of which the pressure left in a cylinder is not kept/,
      ),
      expect.stringMatching(
        /asDived\[0\]\.o2.*on a loop, of which the oxygen of an analysed cylinder is not kept/,
      ),
    ]);
    expect(logged({ by: 'guest-1', endBar: 60 }, [])).toEqual([]);
  });

  it('go with the diver who is taken off a dive', () => {
    const [dive] = trip({}, [{ by: 'guest-1' }]).dives;
    expect(withLoopsOf(dive!, (id) => id !== 'guest-1')).not.toHaveProperty('loops');
    expect(withLoopsOf(dive!, () => true)).toBe(dive);
  });
});
