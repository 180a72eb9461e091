import { memo, type ReactNode, useEffect, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { ruleSentence } from '#core/shared/text/planRule.ts';
import { dayTimeFrom } from '#core/shared/text/when.ts';
import type { BoardView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { freshOf, type Hand, shownOf, useHeld } from './hand.ts';
import held from './held.module.css';
import type { Held } from './held.ts';
import { asksOf, isMoving, useWays, waysHangOn } from './heldWays.ts';
import type { Hands } from './useHands.ts';

type NoteProps = { readonly hands: Hands; readonly board: BoardView; readonly refusal: PlainError | null };

/** What the block in hand is held for and what it may not do, with the places that work; or the question for consent. */
export function HeldNote(props: NoteProps): ReactNode {
  const { hands, board } = props;
  const isHeld = useHeld(hands, ({ lifted }) => lifted !== null);
  const lit = useHeld(hands, isLit);
  const error = useHeld(hands, (hand) => freshOf(hand)?.error ?? null);
  if (!isHeld) return <Refusal refusal={props.refusal} />;
  return (
    <div className={held['note']} data-lit={lit} role={lit ? 'alert' : 'status'}>
      <Said hands={hands} board={board} />
      <Ways hands={hands} nowMs={board.nowMin * 60_000} />
      <Refusal refusal={props.refusal ?? error} />
    </div>
  );
}

function isLit(hand: Hand): boolean {
  return shownOf(hand)?.ok === false || asksOf(hand).length > 0 || hand.stayed !== null;
}

/** What can be pressed, drawn again only where that is something else. */
const Ways = memo(function Ways({
  hands,
  nowMs,
}: {
  readonly hands: Hands;
  readonly nowMs: number;
}): ReactNode {
  const [part] = useState(waysHangOn);
  const seen = useHeld(hands, part);
  const ways = useWays(hands, seen, nowMs);
  useShortcuts(Object.fromEntries(ways.filter((w) => w.keys !== 'Enter').map((w) => [w.keys, w.run])));
  useFocusOnHeld(seen);
  if (ways.length === 0) return null;
  return (
    <p className={held['ways']}>
      {ways.map((w) => (
        <span key={w.keys}>
          <LinkButton onPress={w.run}>{w.label}</LinkButton> <kbd className="kbd">{w.keys}</kbd>
        </span>
      ))}
    </p>
  );
});

type SaidProps = { readonly hands: Hands; readonly board: BoardView };

/** Where it would lie, or the rule in words; after a drop what became of that. */
function Said({ hands, board }: SaidProps): ReactNode {
  const hand = useHeld(hands, (h) => h);
  const t = useText();
  const words = useWords(board);
  const rules = useRules(hand, board);
  const { lifted, dropped } = hand;
  if (!lifted) return null;
  const lands = words.lands(hand);
  if (dropped !== null && typeof dropped === 'object')
    return <Text who={lifted.who} said={t('bays.held.made')} />;
  if (dropped !== null)
    return <Text busy who={lifted.who} said={t('bays.held.checked', words.held(lifted))} />;
  if (rules.length > 0) {
    const stuck = isStuck(hand);
    const said = [
      ...rules,
      ...(hand.stayed === 'no' ? [t('bays.notMoved')] : []),
      ...(stuck ? [t('bays.noneNear', { whole: stuck })] : []),
      ...(asksOf(hand).length > 0 || freshOf(hand)?.swapWith ? lands : []),
      ...(asksOf(hand).length > 0 ? [t('bays.needsConsent')] : []),
    ];
    return <Text who={lifted.who} said={said.join(' ')} />;
  }
  const said = [
    ...(hand.stayed === 'elsewhere' ? [t('bays.elsewhere')] : []),
    ...(isMoving(lifted) ? lands : []),
    t(`bays.held.${lifted.mode}`, { ...words.held(lifted), known: lands.length > 0 ? 'yes' : 'no' }),
  ];
  return <Text who={lifted.who} said={said.join(' ')} />;
}

/** A block that is refused, with nowhere near to offer for it alone: whether its whole job could go along. */
function isStuck(hand: Hand): 'yes' | 'no' | null {
  const check = shownOf(hand);
  if (hand.lifted?.mode !== 'block' || check?.ok !== false || check.nearest.length > 0) return null;
  return 'whole' in check && check.whole.length > 0 ? 'yes' : 'no';
}

/** The name before what is said of it, or within it where that begins with the name. */
function Text(props: { readonly who: string; readonly said: string; readonly busy?: boolean }): ReactNode {
  const { who, said } = props;
  const rest = said.startsWith(who) ? said.slice(who.length) : `: ${said}`;
  return (
    <p aria-busy={props.busy ?? false}>
      <b>{who}</b>
      {rest}
    </p>
  );
}

/** The rules that are broken where it is held, or that somebody has to agree to. */
function useRules(hand: Hand, board: BoardView): readonly string[] {
  const t = useText();
  const manner = useManner();
  const check = shownOf(hand);
  const faults = check?.ok === false ? [check.fault, ...(freshOf(hand)?.swapWith?.asks ?? [])] : asksOf(hand);
  return faults.map((f) => ruleSentence(t, manner, f, board.nowMin * 60_000));
}

/** The words for what is held, and for where it would really lie. */
function useWords(board: BoardView) {
  const t = useText();
  const manner = useManner();
  const at = (min: number): string => dayTimeFrom(manner, min * 60_000, board.nowMin * 60_000);
  return {
    held: (lifted: Held): Readonly<Record<string, string>> => {
      const person = board.people.find((p) => p.personId === lifted.personId)?.name ?? '';
      return {
        at: at(isMoving(lifted) ? lifted.startMin : lifted.atMin),
        stage: t(`word.stage.${lifted.piece.kind}`),
        person,
        by: person === '' ? 'same' : 'other',
      };
    },
    lands: (hand: Hand): readonly string[] => {
      const fresh = freshOf(hand);
      const check = fresh?.check;
      const swapped = fresh?.swapWith?.lands ?? [];
      if (check?.ok && 'plan' in check)
        return [t('bays.lands', { at: at(check.lands.startMin), end: at(check.lands.endMin) })];
      return swapped.map((l) => t('bays.landsOf', { who: l.who, at: at(l.startMin), end: at(l.endMin) }));
    },
  };
}

/** A way pressed below the board goes away with its question: the keys go back to the block in hand. */
function useFocusOnHeld(hand: Hand): void {
  useEffect(() => {
    if (!hand.lifted || document.activeElement !== document.body) return;
    document.querySelector<HTMLElement>('[data-lifted="true"]')?.focus();
  }, [hand]);
}
