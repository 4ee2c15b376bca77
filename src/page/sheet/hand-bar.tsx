import type { ReactNode } from 'react';
import { type Mark, marks } from '../../facts/index.ts';
import { contactLabels, markNames, pageLabels } from '../../words/index.ts';

interface HandBarProps {
  readonly count: number;
  /** The mark that all in hand have; null where they differ, or none is there. */
  readonly mark: Mark | null;
  /** A touch or click adds to what is in hand. */
  readonly several: boolean;
  readonly client: string | null;
  /** Whether the one in hand can go a step earlier, and later, in its shot's order. */
  readonly order: { readonly earlier: boolean; readonly later: boolean } | null;
  /** Where what is in hand could go; none in the tray. */
  readonly shots: readonly { readonly id: string; readonly name: string }[];
  readonly onShot: (shot: string | null) => void;
  readonly onMark: (mark: Mark) => void;
  readonly onSeveral: () => void;
  readonly onEmpty: () => void;
  readonly onLook: () => void;
  readonly onClient: () => void;
  readonly onOrder: (by: -1 | 1) => void;
  readonly onKeys: () => void;
  readonly onPrint: () => void;
}

const chosenMarks = marks.filter((mark) => mark !== 'none');

/** What can be done with what is in hand, below the sheet, where a thumb is. */
export function HandBar(props: HandBarProps): ReactNode {
  const { count, mark, several, client, order } = props;
  return (
    <footer className="hand-bar paper">
      <p className="hand-count" role="status">
        {contactLabels.inHand(count)}
      </p>
      <fieldset className="hand-marks">
        <legend className="unseen">{contactLabels.mark}</legend>
        {chosenMarks.map((each) => (
          <button
            key={each}
            type="button"
            className="press"
            disabled={count === 0}
            aria-pressed={mark === each}
            onClick={() => props.onMark(each)}
          >
            {markNames[each]}
          </button>
        ))}
      </fieldset>
      {props.shots.length === 0 ? null : (
        <select
          className="press hand-shot"
          aria-label={contactLabels.moveTo}
          disabled={count === 0}
          value={-1}
          onChange={(event) => {
            const at = Number(event.target.value);
            props.onShot(props.shots[at]?.id ?? null);
          }}
        >
          <option value={-1}>{contactLabels.moveTo}</option>
          {props.shots.map(({ id, name }, index) => (
            <option key={id} value={index}>
              {name}
            </option>
          ))}
          <option value={props.shots.length}>{contactLabels.noShot}</option>
        </select>
      )}
      {order === null ? null : (
        <fieldset className="hand-order">
          <legend className="unseen">{contactLabels.sort}</legend>
          <button type="button" className="press" disabled={!order.earlier} onClick={() => props.onOrder(-1)}>
            {contactLabels.earlier}
          </button>
          <button type="button" className="press" disabled={!order.later} onClick={() => props.onOrder(1)}>
            {contactLabels.later}
          </button>
        </fieldset>
      )}
      <button
        type="button"
        className="press"
        disabled={count === 0 || count > 4}
        title={contactLabels.compareHelp}
        onClick={props.onLook}
      >
        {count > 1 ? contactLabels.compare : contactLabels.look}
      </button>
      <button
        type="button"
        className="press"
        disabled={client === null && count !== 1}
        onClick={props.onClient}
      >
        {client !== null && count !== 1 ? contactLabels.clientFollows : contactLabels.toClient}
      </button>
      <button type="button" className="press" aria-pressed={several} onClick={props.onSeveral}>
        {contactLabels.several}
      </button>
      <button type="button" className="press" disabled={count === 0} onClick={props.onEmpty}>
        {contactLabels.letGo}
      </button>
      <button type="button" className="press hand-keys" onClick={props.onKeys}>
        {pageLabels.keys}
      </button>
      <button type="button" className="press" onClick={props.onPrint}>
        {contactLabels.print}
      </button>
    </footer>
  );
}
