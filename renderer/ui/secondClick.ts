/** By then the second half of a double click has come, ms. */
const DOUBLE_MS = 600;

/**
 * For what goes away as it is pressed: the second half of a double click would meet what lies beneath, and is dropped.
 */
export function dropSecondClick(): void {
  const drop = (event: MouseEvent): void => {
    if (event.detail < 2) return;
    event.stopPropagation();
    event.preventDefault();
  };
  window.addEventListener('click', drop, { capture: true });
  setTimeout(() => window.removeEventListener('click', drop, { capture: true }), DOUBLE_MS);
}
