// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Folded } from '../../../../renderer/parts/folded';

afterEach(cleanup);

describe('what is folded away', () => {
  it('is made when it is opened, and taken away when it is closed', () => {
    const inside = vi.fn(() => <p>inside</p>);
    render(<Folded summary="More">{inside}</Folded>);
    expect(inside).not.toHaveBeenCalled();
    fireEvent.click(screen.getByText('More'));
    expect(screen.getByText('inside').closest('details')?.open).toBe(true);
    fireEvent.click(screen.getByText('More'));
    expect(screen.queryByText('inside')).toBeNull();
  });

  it('opens by itself once, and then stays as the hand leaves it', () => {
    const folded = (opens: boolean) => (
      <Folded summary="More" opens={opens}>
        {() => 'inside'}
      </Folded>
    );
    const { rerender, container } = render(folded(false));
    const isOpen = (): boolean => container.querySelector('details')!.open;
    rerender(folded(true));
    expect(isOpen()).toBe(true);
    rerender(folded(false));
    expect(isOpen()).toBe(true);
    fireEvent.click(screen.getByText('More'));
    rerender(folded(true));
    expect(isOpen()).toBe(false);
  });
});
