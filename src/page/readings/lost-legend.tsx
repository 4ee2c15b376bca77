import type { ReactNode } from 'react';
import type { ExposedReadings } from '../../contract/index.ts';
import { lostPhrase, percentPhrase, readingLabels } from '../../words/index.ts';
import { type ChannelName, channelNames } from './laid.ts';
import { hatchSlants } from './lost-painter.ts';
import type { LaidSwitch } from './use-laid-choice.ts';

interface LostLegendProps {
  readonly exposed: ExposedReadings;
  readonly laid: LaidSwitch;
}

/** What each hatching over the picture stands for, and how much of the channel is lost; each can be switched. */
export function LostLegend({ exposed, laid }: LostLegendProps): ReactNode {
  const { choice, change } = laid;
  return (
    <div className="plot" data-plot="lost">
      <h3>{readingLabels.lost}</h3>
      <fieldset className="lost-legend">
        <legend className="unseen">{readingLabels.lost}</legend>
        {channelNames.map((channel) => (
          <button
            key={channel}
            type="button"
            aria-pressed={choice.channels[channel]}
            onClick={() => change({ channels: { ...choice.channels, [channel]: !choice.channels[channel] } })}
          >
            <Hatching channel={channel} />
            <span>{readingLabels.channels[channel]}</span>
            <span className="lost-share">{percentPhrase(exposed[channel].saturatedPercent)}</span>
          </button>
        ))}
      </fieldset>
      <p>{lostPhrase(exposed)}</p>
    </div>
  );
}

function Hatching({ channel }: { readonly channel: ChannelName }): ReactNode {
  const slant = hatchSlants[channel];
  const lines = [3, 9, 15].map((at) =>
    slant === 'upright' ? `M${at + 1} 0v20` : slant === 'level' ? `M0 ${at + 1}h20` : `M${at - 13} -1l22 22`,
  );
  return (
    <svg className="hatching" viewBox="0 0 20 20" aria-hidden="true">
      <path d={`${lines.join('')}${slant === 'slanting' ? 'M8 -1l22 22M14 -1l22 22' : ''}`} />
    </svg>
  );
}
