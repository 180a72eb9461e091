import type { ReactNode } from 'react';
import { ruleSentence } from '#core/shared/text/planRule.ts';
import { dayTime } from '#core/shared/text/when.ts';
import type { BoardView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import held from './held.module.css';
import { HELD_MODES, type Held, lastAttended, worthSplitting } from './held.ts';
import type { Moves } from './useMoves.ts';

const KEYS = { block: 'M', whole: 'J', split: 'S', resize: 'R' } as const;

/** What the block in hand is held for and what it may not do, with the places that work; or the question for consent. */
export function HeldNote(props: { readonly moves: Moves; readonly board: BoardView }): ReactNode {
  const { moves, board } = props;
  const ways = useWays(moves);
  useShortcuts(
    moves.lifted
      ? Object.fromEntries(ways.filter((w) => w.keys !== 'Enter').map((w) => [w.keys, w.run]))
      : {},
  );
  if (!moves.lifted) return <Refusal refusal={moves.refusal} />;
  const lit = moves.check?.ok === false || asksOf(moves).length > 0;
  return (
    <div className={held['note']} data-lit={lit} role={lit ? 'alert' : 'status'}>
      <p>
        <Said moves={moves} board={board} />
      </p>
      <p className={held['ways']}>
        {ways.map((w) => (
          <span key={w.keys}>
            <LinkButton onPress={w.run}>{w.label}</LinkButton> <kbd className="kbd">{w.keys}</kbd>
          </span>
        ))}
      </p>
      {isSaid(moves) ? null : <Refusal refusal={moves.refusal} />}
    </div>
  );
}

function asksOf(moves: Moves) {
  return moves.check?.ok ? moves.check.needsConsent : [];
}

/** The refusal is that of the rule, or of the consent, that the note names already. */
function isSaid(moves: Moves): boolean {
  const code = moves.refusal?.code;
  if (code === 'PLAN_BREAKS_RULE') return moves.check?.ok === false;
  return code === 'NEEDS_CONSENT' && asksOf(moves).length > 0;
}

/** A block alone that is refused, with nowhere else to offer. */
function isStuck({ lifted, check }: Moves): boolean {
  return lifted?.mode === 'block' && check?.ok === false && check.nearest.length === 0;
}

/** Where it is held now, or the rule in words; after a drop also that nothing came of it. */
function Said(props: { readonly moves: Moves; readonly board: BoardView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { lifted, check, swapWith } = props.moves;
  if (!lifted) return null;
  const asks = asksOf(props.moves);
  const faults = check?.ok === false ? [check.fault, ...(swapWith?.asks ?? [])] : asks;
  if (faults.length > 0) {
    const said = [
      ...faults.map((f) => ruleSentence(t, manner, f)),
      ...(isSaid(props.moves) ? [t('bays.notMoved')] : []),
      ...(isStuck(props.moves) ? [t('bays.noneNear')] : []),
      ...(asks.length > 0 ? [t('bays.needsConsent')] : []),
    ];
    return <Named who={lifted.who} said={said.join(' ')} />;
  }
  const words = wordsFor(lifted, props.board, (min) => dayTime(manner, min * 60_000), t);
  return <Named who={lifted.who} said={t(`bays.held.${lifted.mode}`, words)} />;
}

/** The name before what is said of it, or within it where that begins with the name. */
function Named({ who, said }: { readonly who: string; readonly said: string }): ReactNode {
  const rest = said.startsWith(who) ? said.slice(who.length) : ` ${said}`;
  return (
    <>
      <b>{who}</b>
      {rest}
    </>
  );
}

function wordsFor(
  lifted: Held,
  board: BoardView,
  at: (min: number) => string,
  t: ReturnType<typeof useText>,
): Readonly<Record<string, string>> {
  const person = board.people.find((p) => p.personId === lifted.personId)?.name ?? '';
  const moving = lifted.mode === 'block' || lifted.mode === 'whole';
  return {
    at: at(moving ? lifted.startMin : lifted.atMin),
    stage: t(`word.stage.${lifted.piece.kind}`),
    person,
    by: person === '' ? 'same' : 'other',
  };
}

type Way = { readonly keys: string; readonly label: string; readonly run: () => void };

/** What can be pressed now: places that work, a swap, consent, the other things a block can be held for, putting it back. */
function useWays(moves: Moves): readonly Way[] {
  const t = useText();
  const manner = useManner();
  const { lifted, check, swapWith } = moves;
  if (!lifted) return [];
  const moving = lifted.mode === 'block' || lifted.mode === 'whole';
  const near: readonly Way[] = (check?.ok === false ? check.nearest : []).map((n, i) => {
    const at = dayTime(manner, n.startMin * 60_000);
    const label = moving
      ? t('bays.placeAt', { bay: n.bayName, at, asks: n.asks ? 1 : 0 })
      : t('bays.minuteAt', { at });
    const run = (): void => (moving ? moves.hold(n.bayId, n.startMin) : moves.mark(n.startMin, lifted.piece));
    return { keys: String(i + 1), label, run };
  });
  const swap: readonly Way[] = swapWith
    ? [
        {
          keys: 'X',
          label: t(swapWith.asks.length > 0 ? 'bays.swapAgreed' : 'bays.swapWith', { who: swapWith.who }),
          run: () => void moves.swap(swapWith.asks.length > 0),
        },
      ]
    : [];
  const agreed: readonly Way[] =
    asksOf(moves).length > 0
      ? [{ keys: 'Y', label: t('bays.agreed'), run: () => void moves.drop(true) }]
      : [];
  const here: readonly Way[] =
    check?.ok && asksOf(moves).length === 0
      ? [{ keys: 'Enter', label: t(`bays.drop.${lifted.mode}`), run: () => void moves.drop() }]
      : [];
  const can = {
    block: true,
    whole: true,
    split: worthSplitting(lifted.from),
    resize: lastAttended(lifted.from),
  };
  const modes = HELD_MODES.filter((mode) => mode !== lifted.mode && can[mode]);
  return [
    ...here,
    ...near,
    ...swap,
    ...agreed,
    ...modes.map((mode) => ({
      keys: KEYS[mode],
      label: t(`bays.mode.${mode}`),
      run: () => moves.turn(mode),
    })),
    { keys: 'Esc', label: t('bays.putBack'), run: moves.putBack },
  ];
}
