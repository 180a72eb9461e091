import { type ReactNode, useState } from 'react';
import { BODY_STYLES, type PanelId } from '#core/shared/vocabulary.ts';
import { useText } from '../../bridge/texts.tsx';
import type { PanelLook } from '../../ui/flatcar/CarPanel.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Wipe } from '../../ui/TapeLine.tsx';
import css from './Kit.module.css';

type Looks = Readonly<Partial<Record<PanelId, PanelLook>>>;

const FILM: Looks = {
  bo: film('116', [
    [120, -60, 112],
    [120, 60, 119],
    [250, -40, 116],
    [240, 50, 118],
    [180, 0, 115],
  ]),
  ro: film('98', [
    [440, -60, 104],
    [440, 50, 102],
    [530, 0, 98],
    [620, -60, 84],
    [630, 40, 81],
  ]),
  lfd: film('106', [
    [380, 190, 104],
    [500, 190, 108],
    [430, 240, 106],
    [370, 290, 99],
    [510, 285, 112],
  ]),
  rrq: { state: 'cross', label: '226', boxed: true },
  lrd: film('', [[618, 230, 108]]),
};
function film(label: string, at: readonly (readonly [number, number, number])[]): PanelLook {
  return { label, film: { thinUm: 90, readings: at.map(([x, y, um]) => ({ x, y, um })) } };
}
const PLAN: Looks = {
  bo: { state: 'done' },
  ro: { state: 'hatch' },
  lfd: { state: 'done' },
  rfd: { state: 'done' },
  lrd: { state: 'work', label: '1.9' },
  rrd: { state: 'thin', label: '0.8', lit: true },
  lrq: { state: 'hatch' },
  rrq: { state: 'cross' },
  fb: { state: 'outline' },
  rb: { state: 'unread' },
  lfw: { shares: { done: 0.4, work: 0.3 }, label: '4.2', boxed: true },
};

/** The flat car in its layers, its bodies, and the tape line over two of it. */
export function CarsSheet(): ReactNode {
  const t = useText();
  const [picked, setPicked] = useState<readonly PanelId[]>(['lfd']);
  return (
    <>
      <div className={css['wide']}>
        <Head title="Bodies" note="one drawing, another layer of facts; arrows walk round the car" />
        <div className={css['cars']}>
          {BODY_STYLES.map((body) => (
            <figure key={body}>
              <FlatCar
                body={body}
                label={t(`word.body.${body}`)}
                look={body === 'saloon' ? FILM : body === 'hatch' ? PLAN : {}}
                selected={picked}
                onPanel={(panel, { extend }) => setPicked(extend ? [...picked, panel] : [panel])}
              />
              <figcaption>
                <strong>{t(`word.body.${body}`)}</strong>
              </figcaption>
            </figure>
          ))}
          <div className={css['mini']}>
            {BODY_STYLES.slice(0, 3).map((body) => (
              <span key={body}>
                <FlatCar body={body} label={body} size="mini" look={PLAN} />
              </span>
            ))}
          </div>
        </div>
      </div>
      <div className={css['two']}>
        <Head title="Tape line" note="drag, arrows, double click" />
        <div className={css['wipe']}>
          <Wipe
            label="A or B"
            left={<FlatCar body="saloon" label="A" look={PLAN} />}
            right={
              <FlatCar body="saloon" label="B" look={{ bo: { state: 'done' }, ro: { state: 'done' } }} />
            }
          />
        </div>
      </div>
    </>
  );
}
