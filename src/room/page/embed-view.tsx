import type { PageMessage } from '../page-shapes.ts';
import { Markdown } from './markdown-view.tsx';
import type { EmbedPart } from './parts.ts';
import { Picture } from './pictures.tsx';

/** An embed, the older kind of card. */
export const EmbedView = ({ embed, message }: { embed: EmbedPart; message: PageMessage }) => (
  <div
    class="box"
    style={
      embed.color === undefined ? {} : { borderInlineStart: `5px solid #${embed.color.toString(16).padStart(6, '0')}` }
    }
  >
    {embed.author && <p class="small">{embed.author.name}</p>}
    {embed.title && <h3 class="size-3">{embed.title}</h3>}
    {embed.description && <Markdown text={embed.description} />}
    {embed.fields && embed.fields.length > 0 && (
      <dl>
        {embed.fields.map(({ name, value }, index) => (
          <div key={index}>
            <dt>{name}</dt>
            <dd>
              <Markdown text={value} />
            </dd>
          </div>
        ))}
      </dl>
    )}
    {embed.thumbnail && (
      <Picture url={embed.thumbnail.url} alt={embed.thumbnail.description ?? ''} small message={message} />
    )}
    {embed.image && <Picture url={embed.image.url} alt={embed.image.description ?? ''} message={message} />}
    {embed.footer && <p class="small">{embed.footer.text}</p>}
  </div>
);
