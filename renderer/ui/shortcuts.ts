import { useEffect, useRef } from 'react';

/** True while the person is typing: plain letters then belong to the field. */
export function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement ||
    (target instanceof HTMLElement && (target.isContentEditable || takesLetters(target)))
  );
}

/** Parts of a date, and lists, open or closed: letters jump to what begins with them. */
function takesLetters(target: HTMLElement): boolean {
  return ['spinbutton', 'listbox', 'option'].includes(target.role ?? '') || target.ariaHasPopup === 'listbox';
}

/** A part of a date, and what opens a list or a calendar: they take Enter for themselves whatever is held with it. */
function keepsEnter(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && (target.role === 'spinbutton' || target.ariaHasPopup !== null);
}

/** Keys with Ctrl that a field answers itself: what was typed is taken back, or put there again. */
const OF_FIELDS = ['Ctrl+Z', 'Ctrl+Shift+Z', 'Ctrl+Y'];

/** Of a plain letter Shift is no part: `F` is the letter, however it was typed. */
function keyOf(event: KeyboardEvent): string {
  const held = [event.ctrlKey || event.metaKey ? 'Ctrl' : '', event.altKey ? 'Alt' : ''].filter(Boolean);
  const isLetter = event.key.length === 1;
  const shift = event.shiftKey && (!isLetter || held.length > 0) ? ['Shift'] : [];
  return [...held, ...shift, isLetter ? event.key.toUpperCase() : event.key].join('+');
}

/** Has the field being typed in hand on its figure, as leaving it would; false where nobody is typing. */
function settle(): boolean {
  const field = document.activeElement;
  if (!(field instanceof HTMLElement) || !isTyping(field)) return false;
  field.blur();
  field.focus({ preventScroll: true });
  return true;
}

/**
 * Keys that work anywhere while the component is there: `{ 'Ctrl+J': layDown, 'F': addFinding }`.
 * Keys without Ctrl or Alt rest while the person types, and so do those that a field answers itself.
 */
export function useShortcuts(map: Readonly<Record<string, () => void>>): void {
  const now = useRef(map);
  now.current = map;
  useEffect(() => {
    function press(event: KeyboardEvent): void {
      const key = keyOf(event);
      const act = Object.hasOwn(now.current, key) ? now.current[key] : undefined;
      if (!act || event.defaultPrevented) return;
      const everywhere = (key.includes('Ctrl') || key.includes('Alt')) && !OF_FIELDS.includes(key);
      if (!everywhere && isTyping(event.target)) return;
      event.preventDefault();
      // What was typed reaches the screen's state first: the act is looked up anew once that was drawn. Else it is done
      // at once, or the next key of a quick hand would go before it.
      if (settle()) window.setTimeout(() => now.current[key]?.());
      else act();
    }
    // Keys with Ctrl are looked at before such a one sees them.
    function pressFirst(event: KeyboardEvent): void {
      if (!(event.ctrlKey || event.metaKey) || !keepsEnter(event.target)) return;
      press(event);
      if (event.defaultPrevented) event.stopPropagation();
    }
    window.addEventListener('keydown', pressFirst, true);
    window.addEventListener('keydown', press);
    return () => {
      window.removeEventListener('keydown', pressFirst, true);
      window.removeEventListener('keydown', press);
    };
  }, []);
}
