// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { wordedCautions } from '../../../../support/cautions';
import { demoTrip } from '../../../../../core/document/demo-trip';
import { ledger } from '../../../../../core/ledger/ledger';
import { desk, freshDesk } from '../../../../../renderer/store/store';
import { DepthLimitField, FillField } from '../../../../../renderer/places/party/gear-fields';

beforeEach(() => desk.setState(freshDesk(), true));
afterEach(cleanup);

const inFeet = (): void =>
  desk.setState(({ settings }) => ({ settings: { ...settings, units: 'imperial' } }));

describe('a depth limit', () => {
  const shown = (depthM: number): string => {
    cleanup();
    render(<DepthLimitField label="Depth limit" value={depthM} commit={() => {}} />);
    return screen.getByLabelText<HTMLInputElement>('Depth limit').value;
  };

  it('is never shown deeper than it is, with a tenth of a metre where it has one', () => {
    expect([39.95, 39.9, 40, 30.5].map(shown)).toEqual(['39.9 m', '39.9 m', '40 m', '30.5 m']);
    inFeet();
    expect([39.95, 130 * 0.3048].map(shown)).toEqual(['131 ft', '130 ft']);
  });

  it('is told alike in the caution of who goes deeper', () => {
    const trip = demoTrip();
    const party = trip.party.map((diver) => ({ ...diver, maxDepthM: 30.95 }));
    const texts = wordedCautions(ledger({ ...trip, party })).map(({ message }) => message);
    expect(texts.filter((text) => text.includes('limit of 30.9 m'))).not.toEqual([]);
  });
});

describe('a fill', () => {
  it('is never shown fuller than it is, and steps in whole hundreds of psi', () => {
    inFeet();
    const put: number[] = [];
    render(<FillField value={220} commit={(bar) => void put.push(bar)} />);
    const field = screen.getByLabelText<HTMLInputElement>('Fill');
    expect(field.value).toBe('3190 psi');
    fireEvent.keyDown(field, { key: 'ArrowUp' });
    expect(Math.round(put[0]! / 0.0689475729)).toBe(3200);
  });
});
