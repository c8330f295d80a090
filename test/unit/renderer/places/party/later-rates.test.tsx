// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../../core/document/demo-trip';
import { planWithRate } from '../../../../../renderer/actions/log';
import { DiverFields } from '../../../../../renderer/places/party/diver-fields';
import { desk, freshDesk, useDesk } from '../../../../../renderer/store/store';

beforeEach(() => desk.setState(freshDesk(demoTrip())));
afterEach(cleanup);

function First() {
  return <DiverFields diver={useDesk(({ trip }) => trip.party[0]!)} />;
}

describe('rates of later days', () => {
  it('stand beside the first one with their day, and can be taken back', () => {
    planWithRate(desk.getState().trip.party[0]!.id, '2027-03-16', 14);
    render(<First />);
    expect(screen.getByText(/14 L\/min from Tue 16/)).toBeTruthy();
    screen.getByRole('button', { name: 'Take back the rate of Guide from Tue 16' }).click();
    expect(desk.getState().trip.party[0]).not.toHaveProperty('rates');
  });
});
