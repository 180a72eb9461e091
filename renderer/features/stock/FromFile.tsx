import type { ReactNode } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { ListFault } from '#core/shared/views/stockItem.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { CalmNote, Refusal, Waiting } from '../../ui/States.tsx';
import { ChooseList } from './ChooseList.tsx';
import { Faults } from './Faults.tsx';

/** A list from a file, which is checked first and taken over whole or not at all. Below the file what it would change. */
export function FromFile(props: {
  readonly title: string;
  readonly text: string;
  readonly onChoose: (csv: string | null) => void;
  readonly checking: boolean;
  readonly refusal: PlainError | null;
  /** What was taken over, once it was. */
  readonly took: string | null;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <Stack gap={2}>
      <Head title={props.title} />
      <p className="quiet">{props.text}</p>
      <ChooseList onChoose={props.onChoose} />
      {props.checking ? <Waiting /> : null}
      {props.children}
      <Refusal refusal={props.refusal} />
      {props.took === null ? null : <CalmNote title={props.took} />}
    </Stack>
  );
}

/** Where a list does not fit, and the button that takes it over where it does. */
export function TakeList(props: {
  readonly label: string;
  readonly faults: readonly ListFault[];
  /** Why there is nothing to take over. */
  readonly nothing: string | undefined;
  readonly word: string;
  readonly busy: boolean;
  readonly onTake: () => void;
}): ReactNode {
  const t = useText();
  const { faults } = props;
  const unfit = faults.length > 0 ? t('stock.ui.listFaults', { n: faults.length }) : undefined;
  return (
    <>
      {unfit ? <p className="lamp">{unfit}</p> : null}
      <Faults label={props.label} of={faults} />
      <Row>
        <Button kind="go" busy={props.busy} why={unfit ?? props.nothing} onPress={props.onTake}>
          {props.word}
        </Button>
      </Row>
    </>
  );
}
