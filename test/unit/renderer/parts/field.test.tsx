// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { failure, success } from '../../../../core/result';
import type { EditResult } from '../../../../renderer/actions/edit';
import { stepped, UnitField, MinutesField, PlainNumberField } from '../../../../renderer/parts/number-field';
import { DraftsAbout } from '../../../../renderer/parts/use-draft';
import { blankTrip } from '../../../../renderer/store/blank-trip';
import { desk, freshDesk } from '../../../../renderer/store/store';

beforeEach(() => desk.setState(freshDesk(), true));
afterEach(cleanup);

const TOO_DEEP = failure({
  kind: 'invalid',
  what: 'Too deep.',
  where: 'dives[0].depthM',
  mend: 'Plan it shallower.',
});

function depthField(commit: (value: number) => EditResult): HTMLInputElement {
  render(<UnitField label="Depth" kind="depth" value={22} commit={commit} />);
  return screen.getByLabelText<HTMLInputElement>('Depth');
}

describe('a number whose unit is the same to every reader', () => {
  it('may have it typed behind', () => {
    const commit = vi.fn<(value: number) => EditResult>(() => success(blankTrip()));
    render(<PlainNumberField label="PO2" value={1.4} sign="bar" commit={commit} />);
    const field = screen.getByLabelText<HTMLInputElement>('PO2');
    fireEvent.change(field, { target: { value: '1.3 bar' } });
    fireEvent.blur(field);
    expect(commit.mock.calls).toEqual([[1.3]]);
  });
});

describe('a number field', () => {
  it('commits nothing while typing, once on Enter, once on leaving', () => {
    const commit = vi.fn<(value: number) => EditResult>(() => success(blankTrip()));
    const field = depthField(commit);
    fireEvent.change(field, { target: { value: '2' } });
    fireEvent.change(field, { target: { value: '25' } });
    expect(commit).not.toHaveBeenCalled();
    fireEvent.keyDown(field, { key: 'Enter' });
    fireEvent.blur(field);
    expect(commit.mock.calls).toEqual([[25]]);
  });

  it('returns to the committed value on Escape', () => {
    const commit = vi.fn<(value: number) => EditResult>(() => success(blankTrip()));
    const field = depthField(commit);
    fireEvent.change(field, { target: { value: '99' } });
    fireEvent.keyDown(field, { key: 'Escape' });
    expect(field.value).toBe('22 m');
    fireEvent.blur(field);
    expect(commit).not.toHaveBeenCalled();
  });

  it('does not take an emptied field for zero', () => {
    const commit = vi.fn<(value: number) => EditResult>(() => success(blankTrip()));
    const field = depthField(commit);
    fireEvent.change(field, { target: { value: '' } });
    fireEvent.blur(field);
    expect(commit).not.toHaveBeenCalled();
    expect(screen.getByRole('alert').textContent).toContain('Nothing is typed.');
  });

  it('says beside the field why a value is refused, keeps what was typed, and lets go when it is mended', () => {
    const commit = vi.fn((value: number): EditResult => (value > 40 ? TOO_DEEP : success(blankTrip())));
    const field = depthField(commit);
    fireEvent.change(field, { target: { value: '400' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(screen.getByRole('alert').textContent).toBe('Too deep. Plan it shallower.');
    expect(field.value).toBe('400');
    expect(field.getAttribute('aria-invalid')).toBe('true');
    expect(document.getElementById(field.getAttribute('aria-describedby')!)?.textContent).toContain(
      'Too deep.',
    );
    fireEvent.change(field, { target: { value: '30' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(screen.queryByRole('alert')).toBeNull();
  });

  it('steps with the arrows from what stands there', () => {
    const commit = vi.fn<(value: number) => EditResult>(() => success(blankTrip()));
    const field = depthField(commit);
    fireEvent.keyDown(field, { key: 'ArrowUp' });
    fireEvent.keyDown(field, { key: 'ArrowDown', shiftKey: true });
    expect(commit.mock.calls).toEqual([[23], [20]]);
  });

  it('brings the old text back where a step is refused, each time', () => {
    const commit = vi.fn<(value: number) => EditResult>(() => TOO_DEEP);
    const field = depthField(commit);
    for (let press = 0; press < 2; press += 1) {
      fireEvent.keyDown(field, { key: 'ArrowUp' });
      expect(field.value).toBe('22 m');
      expect(screen.getByRole('alert').textContent).toContain('Too deep.');
    }
    expect(commit.mock.calls).toEqual([[23], [23]]);
  });

  it('reads and shows in feet where the settings say so', () => {
    desk.setState({ settings: { ...desk.getState().settings, units: 'imperial' } });
    const commit = vi.fn<(value: number) => EditResult>(() => success(blankTrip()));
    const field = depthField(commit);
    expect(field.value).toBe('72 ft');
    fireEvent.change(field, { target: { value: '80' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(commit.mock.calls[0]?.[0]).toBeCloseTo(24.384, 9);
  });

  it('takes nothing of a text that was typed in other units', () => {
    const commit = vi.fn<(value: number) => EditResult>(() => TOO_DEEP);
    const field = depthField(commit);
    fireEvent.change(field, { target: { value: '150' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    act(() => desk.setState({ settings: { ...desk.getState().settings, units: 'imperial' } }));
    expect(field.value).toBe('72 ft');
    expect(screen.queryByRole('alert')).toBeNull();
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(commit.mock.calls).toEqual([[150]]);
    cleanup();
    expect(desk.getState().notice).toBeNull();
  });

  it('says what it refuses to the window as it goes, and nothing once that is mended', () => {
    const field = depthField(() => TOO_DEEP);
    fireEvent.change(field, { target: { value: '150' } });
    fireEvent.blur(field);
    expect(desk.getState().notice).toBeNull();
    cleanup();
    expect(desk.getState().notice?.lines[0]).toMatchObject({ what: 'Too deep.' });
    desk.setState({ notice: null });
    const again = depthField(() => TOO_DEEP);
    fireEvent.change(again, { target: { value: '150' } });
    fireEvent.blur(again);
    fireEvent.keyDown(again, { key: 'Escape' });
    cleanup();
    expect(desk.getState().notice).toBeNull();
  });

  it('leaves behind what was typed for another dive, and says what it refused of it', () => {
    const about = (id: string, depthM: number) => (
      <DraftsAbout value={id}>
        <UnitField label="Depth" kind="depth" value={depthM} commit={() => TOO_DEEP} />
      </DraftsAbout>
    );
    const { rerender } = render(about('d1', 22));
    const field = screen.getByLabelText<HTMLInputElement>('Depth');
    fireEvent.change(field, { target: { value: '15' } });
    rerender(about('d2', 30));
    expect(screen.getByLabelText('Depth')).toBe(field);
    expect(field.value).toBe('30 m');
    expect(desk.getState().notice).toBeNull();
    fireEvent.change(field, { target: { value: '150' } });
    fireEvent.blur(field);
    rerender(about('d3', 12));
    expect(field.value).toBe('12 m');
    expect(screen.queryByRole('alert')).toBeNull();
    expect(desk.getState().notice?.lines[0]).toMatchObject({ what: 'Too deep.' });
    desk.setState({ notice: null });
    cleanup();
    expect(desk.getState().notice).toBeNull();
  });

  it('takes hours and minutes', () => {
    const commit = vi.fn<(value: number) => EditResult>(() => success(blankTrip()));
    render(<MinutesField label="Bottom time" value={45} commit={commit} />);
    const field = screen.getByLabelText('Bottom time');
    fireEvent.change(field, { target: { value: '1:05' } });
    fireEvent.blur(field);
    expect(commit.mock.calls).toEqual([[65]]);
  });
});

describe('stepped', () => {
  it('goes to the next whole step and leaves no dust', () => {
    expect(stepped(22.3, 1, 1)).toBe(23);
    expect(stepped(22.3, -1, 1)).toBe(22);
    expect(stepped(0.1 + 0.2, 1, 0.1)).toBe(0.4);
    expect(stepped(23, -1, 1)).toBe(22);
  });
});
