import type { Page } from 'playwright-core';

/** A window of 1280 by 800 at 150 %. */
export const NARROW = { width: 853, height: 533 } as const;
const LEAST_SEEN_PX = 64;

/**
 * What is wrong in a narrow window: it scrolls sideways, parts of the place lie over one another, a list is squeezed
 * until nothing of it is seen, or the facts of the job in hand run into what stands beside them.
 */
export async function narrowFaults(page: Page): Promise<readonly string[]> {
  return page.evaluate((least) => {
    const faults: string[] = [];
    const main = document.querySelector('main');
    if (!main) return ['no place'];
    for (const box of [document.documentElement, main])
      if (box.scrollWidth > box.clientWidth) faults.push(`${box.tagName} is ${box.scrollWidth} px wide`);
    // What sticks to an edge of the window lies over the rest on purpose.
    const flows = (part: Element): boolean => !['sticky', 'fixed'].includes(getComputedStyle(part).position);
    const parts = [...main.children].filter((part) => part.clientHeight > 1 && flows(part));
    parts.slice(1).forEach((part, i) => {
      const before = parts[i]?.getBoundingClientRect();
      const here = part.getBoundingClientRect();
      if (before && here.top < before.bottom - 1 && here.left < before.right - 1)
        faults.push(`${part.ariaLabel} lies over the part before it`);
    });
    for (const list of main.querySelectorAll('ul, table')) {
      const scroller = list.closest('.scroll, section, div');
      if (list.clientHeight > least && scroller && scroller.clientHeight < least && scroller.clientHeight > 1)
        faults.push(`${list.ariaLabel} shows ${scroller.clientHeight} px of ${list.clientHeight}`);
      if (list.clientHeight > least && scroller?.clientHeight === 0)
        faults.push(`${list.ariaLabel} is hidden`);
    }
    const facts = [...document.querySelectorAll<HTMLElement>('[data-fact]')];
    const seen = facts.filter((fact) => fact.offsetTop === facts[0]?.parentElement?.offsetTop);
    const strip = facts[0]?.closest('section')?.getBoundingClientRect();
    if (strip && strip.right > innerWidth) faults.push('the strip runs out of the window');
    for (const fact of seen)
      if (fact.scrollWidth > fact.clientWidth + 1)
        faults.push(`${fact.dataset['fact']} runs out of its place`);
    return faults;
  }, LEAST_SEEN_PX);
}
