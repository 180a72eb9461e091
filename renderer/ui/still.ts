import { useRef, useSyncExternalStore } from 'react';

let isDown = false;
const listeners = new Set<() => void>();

function put(down: boolean): void {
  if (isDown === down) return;
  isDown = down;
  for (const tell of listeners) tell();
}

function press(event: MouseEvent): void {
  if (event.button === 0) put(true);
}

/** The click comes after the button is let go, in the same turn: what it is meant for has to lie still until then. */
function letGo(): void {
  window.setTimeout(() => put(false));
}

/** A finger's mouse events follow only once it is lifted, so both kinds are listened to. */
for (const name of ['pointerdown', 'mousedown'] as const) window.addEventListener(name, press, true);
for (const name of ['pointerup', 'mouseup', 'pointercancel'] as const)
  window.addEventListener(name, letGo, true);
/** Let go over another window, which says nothing here. */
window.addEventListener('blur', letGo);

function listen(tell: () => void): () => void {
  listeners.add(tell);
  return () => listeners.delete(tell);
}

/**
 * The value, but not while the mouse button is down: it then stays what it was, and comes when the click is over. For
 * what takes room on the page: pressing a button leaves a field, and what the field then says or no longer says must
 * not move the button away from under the pointer.
 */
export function useStill<T>(value: T): T {
  const down = useSyncExternalStore(listen, () => isDown);
  const shown = useRef(value);
  if (!down) shown.current = value;
  return shown.current;
}
