import type { ReactNode } from 'react';
import type { Delivery } from '../../contract/index.ts';
import { destinationLabels, handOverLabels as labels, sentence } from '../../words/index.ts';

/** Files that are listed; a delivery may have thousands, and its folder has them all in its list of contents. */
const listedMax = 100;

/** What was made, and what is to be said of it; what could not be made stands first. */
export function DeliveredFiles({ delivery }: { readonly delivery: Delivery }): ReactNode {
  const { files, missing } = delivery;
  const spoken = files.filter(({ findings }) => findings.length > 0);
  return (
    <>
      {missing.length === 0 ? null : (
        <>
          <h4>{labels.notDelivered}</h4>
          <ul className="hand-files">
            {missing.slice(0, listedMax).map(({ frame, original, finding }) => (
              <li key={frame}>
                <strong>{original}</strong> {sentence(finding)}
              </li>
            ))}
          </ul>
          <More count={missing.length - listedMax} />
        </>
      )}
      <h4>{labels.whatIsThere}</h4>
      {files.length > 0 && spoken.length === 0 ? <p>{labels.nothingSaid}</p> : null}
      {spoken.length === 0 ? null : <p>{labels.said(spoken.length)}</p>}
      <ul className="hand-files">
        {[...spoken, ...files.filter(({ findings }) => findings.length === 0)]
          .slice(0, listedMax)
          .map(({ file, frame, widthPx, heightPx, bytes, findings, sentTo }) => (
            <li key={frame}>
              <strong>{file}</strong> {widthPx} x {heightPx} px, {labels.size(bytes)}
              {sentTo === null ? null : <small>, {destinationLabels.liesAt(sentTo)}</small>}
              {findings.map((finding) => (
                <p key={finding.code}>{sentence(finding)}</p>
              ))}
            </li>
          ))}
      </ul>
      <More count={files.length - listedMax} />
    </>
  );
}

export function More({ count }: { readonly count: number }): ReactNode {
  return count > 0 ? <p className="hand-soft">{labels.more(count)}</p> : null;
}
