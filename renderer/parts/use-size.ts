import { useLayoutEffect, useState, type RefObject } from 'react';

export interface Size {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The inner size of an element, followed as it changes; null until it has been laid out. */
export function useSize(ref: RefObject<HTMLElement | null>): Size | null {
  const [size, setSize] = useState<Size | null>(null);
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return undefined;
    const measure = () => {
      const widthPx = element.clientWidth;
      const heightPx = element.clientHeight;
      setSize((was) => (was?.widthPx === widthPx && was.heightPx === heightPx ? was : { widthPx, heightPx }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}
