import type { ReactNode } from 'react';
import { LinkButton } from './Button.tsx';
import { Row } from './Layout.tsx';

/** A form that goes on where it was left: since when, and the way to an empty one. */
export function DraftNote(props: {
  readonly text: string;
  readonly anew: string;
  readonly onAnew: () => void;
}): ReactNode {
  return (
    <div role="status">
      <Row>
        <span className="t1 quiet">{props.text}</span>
        <LinkButton onPress={props.onAnew}>{props.anew}</LinkButton>
      </Row>
    </div>
  );
}
