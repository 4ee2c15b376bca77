import { type ReactNode, useState } from 'react';
import type { MadeLink } from '../../contract/index.ts';
import { linkLabels, sentence } from '../../words/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { QrCode } from './qr-code.tsx';

interface LinkToGiveProps {
  readonly made: MadeLink;
  readonly onDone: () => void;
}

/** A link that was just made: to scan or to type. Nobody can be told it again. */
export function LinkToGive({ made, onDone }: LinkToGiveProps): ReactNode {
  const hasEncrypted = made.addresses.some(({ encrypted }) => encrypted);
  const [clear, setClear] = useState(!hasEncrypted);
  const fitting = made.addresses.filter(({ encrypted }) => encrypted !== clear);
  const [best, ...others] = fitting;
  return (
    <section className="link-to-give" aria-label={made.link.name}>
      {made.door.trouble === null ? null : (
        <p role="alert">
          <PlainWords text={sentence(made.door.trouble)} />
        </p>
      )}
      {best === undefined ? null : (
        <>
          <QrCode text={best.url} label={linkLabels.code} />
          <div className="link-words">
            <h3>{made.link.name}</h3>
            <p>{linkLabels.scan}</p>
            <Address url={best.url} />
            {others.map(({ url }) => (
              <Address key={url} url={url} />
            ))}
            {clear ? <p className="link-warning">{linkLabels.clearWarning}</p> : null}
            <p>{linkLabels.onceOnly}</p>
            {hasEncrypted && made.link.scope !== 'operator' ? (
              <label className="link-clear">
                <input type="checkbox" checked={clear} onChange={() => setClear(!clear)} />
                {linkLabels.clear}
              </label>
            ) : null}
          </div>
        </>
      )}
      <button type="button" onClick={onDone}>
        {linkLabels.done}
      </button>
    </section>
  );
}

/** Lines end between groups only; what is copied stays as it is. */
function Address({ url }: { readonly url: string }): ReactNode {
  const [place = '', token = ''] = url.split('#', 2);
  return (
    <p className="link-address" data-testid="link-address">
      {place}#<wbr />
      {token.split(/(?<=-)/).map((group) => (
        <span key={group}>{group}</span>
      ))}
    </p>
  );
}
