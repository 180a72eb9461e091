import { memo, type ReactNode, useId, useMemo } from 'react';
import css from './FlatCar.module.css';
import { type FilmPoint, filmField } from './film.ts';

/** Edges of the bands in µm; the tone of each is --f2 … --f10, thin film is lit instead. */
const BANDS = [0, 100, 106, 112, 118, 124, 132, 150, 200] as const;

/** Tone of a film value, 2 (least) to 10 (most). */
function filmTone(um: number): number {
  return 1 + BANDS.filter((edge) => edge <= um).length;
}

type FilmProps = {
  readonly d: string;
  readonly readings: readonly FilmPoint[];
  /** Below this the film is thin: lit and hatched. */
  readonly thinUm: number;
};

/** Film inside one panel: bands from three marked readings up, one flat tone of their mean below that. */
export const FilmLayer = memo(function FilmLayer(props: FilmProps): ReactNode {
  const { d, readings, thinUm } = props;
  const id = useId();
  const levels = useMemo(() => [thinUm, ...BANDS.filter((edge) => edge > thinUm)], [thinUm]);
  const field = useMemo(() => filmField(d, readings, levels), [d, readings, levels]);
  const mean = readings.reduce((sum, r) => sum + r.um, 0) / Math.max(1, readings.length);
  const base = field ? field.base : mean < thinUm ? null : mean;
  return (
    <g>
      <clipPath id={id}>
        <path d={d} />
      </clipPath>
      <path d={d} className={css['tone']} data-tone={base === null ? 1 : filmTone(base)} />
      {base === null ? <path d={d} className={css['thinHatch']} /> : null}
      <g clipPath={`url(#${id})`}>
        {field?.steps.map((step) => (
          <g key={step.level}>
            <path d={step.region} className={css['tone']} data-tone={filmTone(step.level)} data-seam="true" />
            <path d={step.edge} className={css['iso']} />
          </g>
        ))}
      </g>
    </g>
  );
});
