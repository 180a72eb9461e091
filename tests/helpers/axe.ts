import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/**
 * The accessibility rules for a page as it stands. Our pages have no frames: gathering those in a second page each time took
 * as long as the rules themselves.
 */
export function axeOf(page: Page): AxeBuilder {
  return new AxeBuilder({ page }).setLegacyMode(true);
}
