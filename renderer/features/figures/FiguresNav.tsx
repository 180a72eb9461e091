import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { usePath } from '../../ui/router.ts';
import css from './nav.module.css';

const PAGES = [
  { path: '/figures', key: 'figures.page.all' },
  { path: '/figures/week', key: 'figures.page.week' },
  { path: '/figures/hours', key: 'figures.page.hours' },
  { path: '/figures/honesty', key: 'figures.page.honesty' },
  { path: '/figures/money', key: 'figures.page.money' },
  { path: '/figures/what-if', key: 'whatIf.title' },
] as const;

/** The pages of the look back, as one quiet row of words. */
export function FiguresNav(): ReactNode {
  const t = useText();
  const path = usePath().split('?')[0];
  return (
    <nav className={css['nav']} aria-label={t('figures.pages')}>
      {PAGES.map((page) => (
        <a key={page.path} href={`#${page.path}`} aria-current={page.path === path ? 'page' : undefined}>
          {t(page.key)}
        </a>
      ))}
    </nav>
  );
}
