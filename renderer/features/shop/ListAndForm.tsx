import { type ReactNode, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

/** One line of the list: what it is, and about it. */
export type Listed = {
  readonly key: string;
  readonly what: string;
  readonly about: string;
  readonly onTakeBack: () => void;
};

/** What the shop has set of one sort, each line with its way back, and below it the form for another. */
export function ListAndForm(props: {
  readonly title: string;
  /** Said where the list is empty. */
  readonly none: string;
  readonly rows: readonly Listed[];
  /** What is over: kept out of the way until somebody asks for it. */
  readonly past?: readonly Listed[];
  /** Why nothing can be changed here. */
  readonly off: string | undefined;
  /** Of taking back. */
  readonly refusal: PlainError | null;
  readonly children: ReactNode;
}): ReactNode {
  const t = useText();
  const [wantsPast, setWantsPast] = useState(false);
  const { past = [] } = props;
  const rows = wantsPast ? [...past, ...props.rows] : props.rows;
  return (
    <>
      <Head level={3} title={props.title}>
        {past.length > 0 ? (
          <LinkButton quiet onPress={() => setWantsPast(!wantsPast)}>
            {t(wantsPast ? 'shop.away.hidePast' : 'shop.away.showPast', { n: past.length })}
          </LinkButton>
        ) : null}
      </Head>
      {rows.length === 0 ? <p className="t1 quiet">{props.none}</p> : null}
      <List label={props.title}>
        {rows.map((row) => (
          <Item key={row.key}>
            <span className={css['awayRow']}>
              <span className="cut">{row.what}</span>
              <span className="quiet cut">{row.about}</span>
              <LinkButton quiet why={props.off} onPress={row.onTakeBack}>
                {t('shop.away.takeBack')}
              </LinkButton>
            </span>
          </Item>
        ))}
      </List>
      <Refusal refusal={props.refusal} />
      {props.children}
    </>
  );
}

/** The fields of one more line side by side, and the button that adds it. */
export function AddForm(props: {
  readonly wide?: boolean;
  readonly add: string;
  /** What is missing before it can be added. */
  readonly why: string | undefined;
  readonly busy: boolean;
  readonly refusal: PlainError | null;
  readonly onAdd: () => void;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <>
      <div className={css[props.wide ? 'awayForm' : 'apartForm']}>
        {props.children}
        <Button why={props.why} busy={props.busy} onPress={props.onAdd}>
          {props.add}
        </Button>
      </div>
      <Refusal refusal={props.refusal} />
    </>
  );
}
