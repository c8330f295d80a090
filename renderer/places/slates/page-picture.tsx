import { memo, useEffect, useRef, useState, type ReactNode } from 'react';
import type { Mark, Page, Point } from '../../../core/slate/layout';
import { pictureFont } from './font-files';
import styles from './page-picture.module.css';

/** Points to a CSS pixel: 96 pixels and 72 points an inch. */
const PX_PER_PT = 96 / 72;

function path(points: readonly Point[]): string {
  return points.map(({ x, y }) => `${x},${y}`).join(' ');
}

function grey(share: number): string {
  const level = Math.round(share * 255);
  return `rgb(${level} ${level} ${level})`;
}

/** One mark as the PDF has it: same place, same size, same letters. */
function MarkShape({ mark }: { readonly mark: Mark }): ReactNode {
  switch (mark.kind) {
    case 'text':
      return (
        <text
          className={styles.text}
          x={mark.x}
          y={mark.y}
          fontFamily={pictureFont(mark.font)}
          fontSize={mark.sizePt}
          fill="#000"
        >
          {mark.text}
        </text>
      );
    case 'line':
      return (
        <polyline
          points={path(mark.points)}
          fill="none"
          stroke="#000"
          strokeWidth={mark.widthPt}
          {...(mark.dashPt ? { strokeDasharray: mark.dashPt.join(' ') } : {})}
        />
      );
    case 'area':
      return <polygon points={path(mark.points)} fill={grey(mark.grey)} />;
  }
}

/** All marks of a page, in points. */
export const Marks = memo(({ marks }: { readonly marks: readonly Mark[] }): ReactNode => (
  // A page never changes in place: its marks are known by where they stand in it.
  <>
    {marks.map((mark, i) => (
      <MarkShape key={`${mark.kind}${i}`} mark={mark} />
    ))}
  </>
));

/** A page as it will be printed, drawn once it comes near the part of the list that is seen. */
export function PagePicture(props: {
  readonly page: Page;
  readonly number: number;
  readonly zoom: number;
}): ReactNode {
  const { page, number, zoom } = props;
  const ref = useRef<HTMLElement>(null);
  const [isNear, setNear] = useState(false);
  useEffect(() => {
    const element = ref.current;
    if (!element) return undefined;
    const watcher = new IntersectionObserver(
      ([entry]) => setNear((was) => was || entry?.isIntersecting === true),
      { rootMargin: '800px' },
    );
    watcher.observe(element);
    return () => watcher.disconnect();
  }, []);
  return (
    <figure className={styles.page} data-part="slate-page" ref={ref}>
      <svg
        width={page.widthPt * PX_PER_PT * zoom}
        height={page.heightPt * PX_PER_PT * zoom}
        viewBox={`0 0 ${page.widthPt} ${page.heightPt}`}
        aria-label={`Page ${number}`}
        role="group"
      >
        <rect width={page.widthPt} height={page.heightPt} fill="#fff" />
        {isNear ? <Marks marks={page.marks} /> : null}
      </svg>
      <figcaption>
        {number}. {page.name}
      </figcaption>
    </figure>
  );
}
