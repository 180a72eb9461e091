import { type ReactNode, useEffect } from 'react';
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
import { asksOf, isMoving, useWays } from './heldWays.ts';
import type { Hands } from './useHands.ts';

type NoteProps = { readonly hands: Hands; readonly board: BoardView; readonly refusal: PlainError | null };

/** What the block in hand is held for and what it may not do, with the places that work; or the question for consent. */
export function HeldNote(props: NoteProps): ReactNode {
  const { hands, board } = props;
  const hand = useHeld(hands, (h) => h);
  const ways = useWays(hands, hand, board.nowMin * 60_000);
  useShortcuts(Object.fromEntries(ways.filter((w) => w.keys !== 'Enter').map((w) => [w.keys, w.run])));
  useFocusOnHeld(hand);
  const refusal = props.refusal ?? freshOf(hand)?.error ?? null;
  if (!hand.lifted) return <Refusal refusal={props.refusal} />;
  const lit = shownOf(hand)?.ok === false || asksOf(hand).length > 0 || hand.stayed !== null;
  return (
    <div className={held['note']} data-lit={lit} role={lit ? 'alert' : 'status'}>
      <p aria-busy={hand.dropped === 'waits' || hand.dropped === 'sent'}>
        <Said hand={hand} board={board} />
      </p>
      {ways.length > 0 ? (
        <p className={held['ways']}>
          {ways.map((w) => (
            <span key={w.keys}>
              <LinkButton onPress={w.run}>{w.label}</LinkButton> <kbd className="kbd">{w.keys}</kbd>
            </span>
          ))}
        </p>
      ) : null}
      <Refusal refusal={refusal} />
    </div>
  );
}

type SaidProps = { readonly hand: Hand; readonly board: BoardView };

/** Where it would lie, or the rule in words; after a drop what became of that. */
function Said({ hand, board }: SaidProps): ReactNode {
  const t = useText();
  const words = useWords(board);
  const rules = useRules(hand, board);
  const { lifted, dropped } = hand;
  if (!lifted) return null;
  const lands = words.lands(hand);
  if (dropped !== null && typeof dropped === 'object')
    return <Named who={lifted.who} said={t('bays.held.made')} />;
  if (dropped !== null) return <Named who={lifted.who} said={t('bays.held.checked', words.held(lifted))} />;
  if (rules.length > 0) {
    const stuck = isStuck(hand);
    const said = [
      ...rules,
      ...(hand.stayed === 'no' ? [t('bays.notMoved')] : []),
      ...(stuck ? [t('bays.noneNear', { whole: stuck })] : []),
      ...(asksOf(hand).length > 0 || freshOf(hand)?.swapWith ? lands : []),
      ...(asksOf(hand).length > 0 ? [t('bays.needsConsent')] : []),
    ];
    return <Named who={lifted.who} said={said.join(' ')} />;
  }
  const said = [
    ...(hand.stayed === 'elsewhere' ? [t('bays.elsewhere')] : []),
    ...(isMoving(lifted) ? lands : []),
    t(`bays.held.${lifted.mode}`, words.held(lifted)),
  ];
  return <Named who={lifted.who} said={said.join(' ')} />;
}

/** A block that is refused, with nowhere near to offer for it alone: whether its whole job could go along. */
function isStuck(hand: Hand): 'yes' | 'no' | null {
  const check = shownOf(hand);
  if (hand.lifted?.mode !== 'block' || check?.ok !== false || check.nearest.length > 0) return null;
  return 'whole' in check && check.whole.length > 0 ? 'yes' : 'no';
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
