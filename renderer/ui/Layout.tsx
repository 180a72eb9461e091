import { createContext, type ReactNode, useContext, useLayoutEffect, useState } from 'react';
import css from './Layout.module.css';
import { useReach } from './reach.ts';

/** Told when a heading of the first level is seen in this place, and when it goes. */
const SeenContext = createContext<(change: 1 | -1) => void>(() => undefined);

/** The body of one place: fills the window under the strips; each column scrolls on its own. Has one first heading. */
export function Place(props: {
  readonly label: string;
  /** left: what needs a hand in a 376 px column, facts run out to the right. */
  readonly columns?: 'one' | 'left' | 'right' | 'even' | 'three';
  readonly children: ReactNode;
}): ReactNode {
  const [seen, setSeen] = useState(0);
  const [tell] = useState(() => (change: 1 | -1) => setSeen((n) => n + change));
  return (
    <main
      id="work"
      tabIndex={-1}
      className={css['place']}
      data-columns={props.columns}
      aria-label={props.label}
    >
      {seen > 0 ? null : <h1 className="unseen">{props.label}</h1>}
      <SeenContext value={tell}>{props.children}</SeenContext>
    </main>
  );
}

/** One column of a place. `divided` draws the lit line to its left. */
export function Column(props: {
  readonly label?: string;
  readonly divided?: boolean;
  readonly children: ReactNode;
}): ReactNode {
  const reach = useReach<HTMLElement>();
  return (
    <section
      ref={reach}
      className={css['column']}
      data-divided={props.divided ?? false}
      aria-label={props.label}
    >
      {props.children}
    </section>
  );
}

/** Says to the place that its first heading is seen: it needs no unseen one then. */
function useFirstHeading(isFirst: boolean): void {
  const tell = useContext(SeenContext);
  useLayoutEffect(() => {
    if (!isFirst) return;
    tell(1);
    return () => tell(-1);
  }, [tell, isFirst]);
}

/** A heading with a dusty note beside it and quiet actions to the right. The third level is a look: none is skipped. */
export function Head(props: {
  readonly title: ReactNode;
  readonly note?: ReactNode;
  readonly level?: 1 | 2 | 3;
  readonly children?: ReactNode;
}): ReactNode {
  const Tag = props.level === 1 ? 'h1' : 'h2';
  useFirstHeading(props.level === 1);
  return (
    <header className={css['head']} data-level={props.level ?? 2}>
      <Tag>{props.title}</Tag>
      {props.note === undefined ? null : <span className={css['note']}>{props.note}</span>}
      {props.children ? <span className={css['actions']}>{props.children}</span> : null}
    </header>
  );
}

/** Things side by side that may wrap: buttons, links, short facts. */
export function Row(props: { readonly children: ReactNode }): ReactNode {
  return <div className={css['row']}>{props.children}</div>;
}

/** Things one below the other, in steps of the 8 px rhythm (0 = 4 px … 4 = 24 px). */
export function Stack(props: { readonly gap?: 0 | 1 | 2 | 3 | 4; readonly children: ReactNode }): ReactNode {
  return (
    <div className={css['stack']} data-gap={props.gap ?? 2}>
      {props.children}
    </div>
  );
}

/** The lowest line of a column: the next thing to do, or a quiet fact. */
export function Foot(props: { readonly children: ReactNode }): ReactNode {
  return <footer className={css['foot']}>{props.children}</footer>;
}
