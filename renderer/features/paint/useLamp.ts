import { type KeyboardEvent, useState } from 'react';
import type { InspectionView, PanelInspectionView } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import type { MarkedPoint } from '../../bridge/useReadings.ts';
import type { PickHow } from '../../ui/flatcar/FlatCar.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { LAYERS, type Layer } from './looks.ts';

/** The panel in the lamp, the point marked on it, and what was begun there. */
export type Lamp = {
  readonly panel: PanelInspectionView | undefined;
  readonly point: MarkedPoint | null;
  /** A digit typed on the drawing, counted so that the same digit twice is two. */
  readonly typed: { readonly text: string; readonly n: number };
  /** A finding is being added. */
  readonly adding: boolean;
  readonly setAdding: (adding: boolean) => void;
  readonly pick: (id: PanelId, how: PickHow) => void;
  readonly press: (id: PanelId, event: KeyboardEvent) => void;
};

/** Puts panels in the lamp by press and key; F adds a finding, Alt and a digit show a layer. */
export function useLamp(view: InspectionView, onLayer: (layer: Layer) => void): Lamp {
  const [selected, setSelected] = useState<PanelId>(view.panels.some((p) => p.panel === 'bo') ? 'bo' : 'fb');
  const [point, setPoint] = useState<MarkedPoint | null>(null);
  const [typed, setTyped] = useState({ text: '', n: 0 });
  const [adding, setAdding] = useState(false);
  const layerKeys = LAYERS.map((one, i) => [`Alt+${i + 1}`, () => onLayer(one)] as const);
  useShortcuts(Object.fromEntries([['F', () => setAdding(true)] as const, ...layerKeys]));

  function pick(id: PanelId, how: PickHow): void {
    // A second press on the panel in the lamp marks the point that the next readings belong to.
    setPoint(id === selected ? how.at : null);
    setSelected(id);
    // A digit belongs to the panel it was typed on.
    setTyped({ text: '', n: 0 });
    if (id !== selected) setAdding(false);
  }
  function press(id: PanelId, event: KeyboardEvent): void {
    if (!/^\d$/.test(event.key) || event.altKey || event.ctrlKey) return;
    event.preventDefault();
    setSelected(id);
    setTyped((before) => ({ text: event.key, n: before.n + 1 }));
  }
  const panel = view.panels.find((p) => p.panel === selected) ?? view.panels[0];
  return { panel, point, typed, adding, setAdding, pick, press };
}
