// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { Palette } from '../../../../renderer/frame/palette';
import { blankTrip } from '../../../../renderer/store/blank-trip';
import { desk, freshDesk } from '../../../../renderer/store/store';

// The test's page has no modal dialogs; what is in one is all that is asked here.
beforeEach(() => {
  HTMLDialogElement.prototype.showModal = function showModal() {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function close() {
    this.open = false;
  };
});
afterEach(cleanup);

it('offers the dives of the trip that came while it was open, and none of the one before', () => {
  desk.setState(freshDesk(demoTrip()), true);
  render(<Palette />);
  fireEvent.change(screen.getByRole('combobox'), { target: { value: 'dive 12' } });
  expect(screen.getAllByRole('option')[0]!.textContent).toContain('Dive 12, ');
  const [dive] = demoTrip().dives;
  const other = { ...demoTrip(), title: 'Another', dives: [dive!] };
  act(() => desk.setState({ trip: other }));
  expect(screen.queryAllByRole('option').map(({ textContent }) => textContent)).not.toContainEqual(
    expect.stringContaining('Dive 12, '),
  );
  act(() => desk.setState({ trip: blankTrip() }));
  expect(screen.getByRole('status').textContent).toContain('Nothing is called that');
});
