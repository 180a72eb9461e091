import {
  type KeyboardEvent,
  type ReactNode,
  type RefObject,
  useEffect,
  useId,
  useRef,
  useState,
} from 'react';
import { useText } from '../bridge/texts.tsx';
import css from './CommandBar.module.css';
import { type Act, actsFitting, useAllActs, useAllSearches } from './commandRegistry.ts';
import { useShortcuts } from './shortcuts.ts';

const MOST = 14;
const WAIT_MS = 120;

/** Acts that fit, plus what the searches find, asked a moment after the last letter. */
function useFound(text: string, open: boolean): readonly Act[] {
  const acts = useAllActs();
  const searches = useAllSearches();
  const [found, setFound] = useState(NOTHING);
  useEffect(() => {
    const stop = new AbortController();
    if (!open || text.trim().length < 2) {
      setFound(NOTHING);
      return;
    }
    const timer = setTimeout(() => {
      void Promise.allSettled(searches.map((search) => search(text.trim(), stop.signal))).then((all) => {
        if (stop.signal.aborted) return;
        setFound({ text, acts: all.flatMap((one) => (one.status === 'fulfilled' ? one.value : [])) });
      });
    }, WAIT_MS);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [text, open, searches]);
  if (!open) return [];
  // Enter must not open what was found for fewer letters: until the answer, only what still fits stands.
  const records = found.text === text ? found.acts : actsFitting([found.acts], text);
  return [...records, ...actsFitting(acts, text)].slice(0, MOST);
}
const NOTHING: { readonly text: string; readonly acts: readonly Act[] } = { text: '', acts: [] };

type Bar = {
  readonly field: RefObject<HTMLInputElement | null>;
  readonly open: boolean;
  readonly text: string;
  /** Which line is chosen. */
  readonly at: number;
  readonly found: readonly Act[];
  readonly setOpen: (open: boolean) => void;
  readonly type: (text: string) => void;
  readonly run: (act: Act | undefined) => void;
  readonly press: (event: KeyboardEvent) => void;
};

/** What is typed, found and chosen, and where the focus goes back to. */
function useBar(): Bar {
  const field = useRef<HTMLInputElement>(null);
  const back = useRef<Element | null>(null);
  const [open, setOpen] = useState(false);
  const [text, setText] = useState('');
  const [at, setAt] = useState(0);
  const found = useFound(text, open);
  useShortcuts({
    'Ctrl+K': () => {
      back.current = document.activeElement;
      field.current?.focus();
      setOpen(true);
    },
  });
  function type(typed: string): void {
    setText(typed);
    setAt(0);
    setOpen(true);
  }
  function close(): void {
    type('');
    setOpen(false);
    field.current?.blur();
  }
  function run(act: Act | undefined): void {
    if (!act) return;
    close();
    act.run();
  }
  function press(event: KeyboardEvent): void {
    if (event.key === 'ArrowDown') setAt(Math.max(0, Math.min(found.length - 1, at + 1)));
    else if (event.key === 'ArrowUp') setAt(Math.max(0, at - 1));
    else if (event.key === 'Enter') run(found[at]);
    else if (event.key === 'Escape') {
      close();
      if (back.current instanceof HTMLElement) back.current.focus();
    } else return;
    event.preventDefault();
  }
  return { field, open, text, at, found, setOpen, type, run, press };
}

/** One field for everything: names, plates, things to do. Ctrl+K goes there, arrows choose, Enter does it. */
export function CommandBar(): ReactNode {
  const t = useText();
  const id = useId();
  const { field, open, text, at, found, ...bar } = useBar();
  return (
    <div className={css['wrap']}>
      <input
        ref={field}
        className={css['field']}
        role="combobox"
        aria-expanded={open}
        aria-controls={`${id}-list`}
        aria-activedescendant={open && found[at] ? `${id}-${at}` : undefined}
        aria-label={t('ui.command.label')}
        placeholder={t('ui.command.placeholder')}
        autoComplete="off"
        spellCheck={false}
        value={text}
        onFocus={() => bar.setOpen(true)}
        onBlur={() => bar.setOpen(false)}
        onChange={(e) => bar.type(e.currentTarget.value)}
        onKeyDown={bar.press}
      />
      <span className={css['hint']} aria-hidden="true">
        {open ? t('ui.command.count', { count: found.length }) : 'Ctrl K'}
      </span>
      {open ? <Found id={id} found={found} at={at} text={text} onRun={bar.run} /> : null}
    </div>
  );
}

function Found(props: {
  readonly id: string;
  readonly found: readonly Act[];
  readonly at: number;
  readonly text: string;
  readonly onRun: (act: Act) => void;
}): ReactNode {
  const t = useText();
  return (
    <div
      id={`${props.id}-list`}
      className={css['list']}
      role="listbox"
      // A box that scrolls would be a stop of its own, gone as soon as the field is left.
      tabIndex={-1}
      aria-label={t('ui.command.label')}
    >
      {props.found.length === 0 ? <div className={css['none']}>{t('ui.command.none')}</div> : null}
      {props.found.map((act, i) => (
        <div key={act.id} role="presentation">
          {act.group === props.found[i - 1]?.group ? null : <div className={css['group']}>{act.group}</div>}
          {/* biome-ignore lint/a11y/useKeyWithClickEvents: the keys are the field's, which points here */}
          <div
            id={`${props.id}-${i}`}
            className={css['act']}
            role="option"
            tabIndex={-1}
            aria-selected={i === props.at}
            onMouseDown={(e) => e.preventDefault()}
            onClick={() => props.onRun(act)}
          >
            <span>
              <Marked label={act.label} text={props.text} />
            </span>
            {act.note ? <span className={`${css['note']} cut`}>{act.note}</span> : null}
            {act.keys ? <kbd className={`kbd ${css['keys']}`}>{act.keys}</kbd> : null}
          </div>
        </div>
      ))}
    </div>
  );
}

/** The label with the typed beginning marked. */
function Marked(props: { readonly label: string; readonly text: string }): ReactNode {
  const typed = props.text.trim().toLowerCase();
  const start = typed === '' ? -1 : props.label.toLowerCase().indexOf(typed);
  if (start < 0) return props.label;
  const end = start + typed.length;
  return (
    <>
      {props.label.slice(0, start)}
      <mark>{props.label.slice(start, end)}</mark>
      {props.label.slice(end)}
    </>
  );
}
