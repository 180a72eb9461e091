import type { ReactNode } from 'react';
import css from './ChooseFile.module.css';

/** A button that asks for a file of this computer; the same file can be chosen again. */
export function ChooseFile(props: {
  readonly label: string;
  /** What the picker shows, as in HTML's `accept`. */
  readonly accept: string;
  readonly many?: boolean;
  readonly busy?: boolean;
  readonly onChoose: (files: readonly File[]) => Promise<void>;
}): ReactNode {
  return (
    <label className={css['file']} aria-busy={props.busy}>
      {props.label}
      <input
        type="file"
        multiple={props.many}
        accept={props.accept}
        onChange={(e) => {
          const field = e.currentTarget;
          void props.onChoose([...(field.files ?? [])]).finally(() => {
            field.value = '';
          });
        }}
      />
    </label>
  );
}
