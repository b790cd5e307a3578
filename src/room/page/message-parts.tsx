import type { PageMessage } from '../page-shapes.ts';
import { ButtonView } from './button-view.tsx';
import { Markdown, Spoiler } from './markdown-view.tsx';
import { FileLink, Picture, PictureRow } from './pictures.tsx';
import type { ButtonPart, MessagePart, RowPart, SectionPart } from './parts.ts';
import { SelectView } from './select-view.tsx';

type PartProps<Part> = { part: Part; message: PageMessage };

/** The components of a message, in the order in which they were sent. */
export const MessageParts = ({ parts, message }: { parts: MessagePart[]; message: PageMessage }) => (
  <>
    {parts.map((part, index) => (
      <PartView key={index} part={part} message={message} />
    ))}
  </>
);

function PartView({ part, message }: PartProps<MessagePart>) {
  switch (part.type) {
    case 1:
      return <Row part={part} message={message} />;
    case 9:
      return <Section part={part} message={message} />;
    case 10:
      return <Markdown text={part.content} />;
    case 11:
      return (
        <Picture
          url={part.media.url}
          alt={part.description ?? ''}
          small
          spoiler={part.spoiler === true}
          message={message}
        />
      );
    case 12:
      return <PictureRow items={part.items} message={message} />;
    case 13:
      return <FileLink url={part.file.url} message={message} />;
    case 14:
      return part.divider === false ? (
        <div class={`gap gap-${part.spacing ?? 1}`} />
      ) : (
        <hr class={`gap-${part.spacing ?? 1}`} />
      );
    case 17: {
      const inside = <MessageParts parts={part.components} message={message} />;
      const bar = part.accent_color == null ? '' : `#${part.accent_color.toString(16).padStart(6, '0')}`;
      return (
        <div class="box" style={bar ? { borderInlineStart: `5px solid ${bar}` } : {}}>
          {part.spoiler ? <Spoiler>{inside}</Spoiler> : inside}
        </div>
      );
    }
    default:
      return <p class="small">A part that this page cannot draw (type {(part as { type: number }).type}).</p>;
  }
}

const Row = ({ part, message }: PartProps<RowPart>) => (
  <div class="row">
    {part.components.map((inner, index) =>
      inner.type === 2 ? (
        <ButtonView key={inner.custom_id ?? index} part={inner} message={message} />
      ) : (
        <SelectView key={inner.custom_id} part={inner} message={message} />
      ),
    )}
  </div>
);

const Section = ({ part, message }: PartProps<SectionPart>) => (
  <div class="section">
    <div>
      {part.components.map((text, index) => (
        <Markdown key={index} text={text.content} />
      ))}
    </div>
    {isButton(part.accessory) ? (
      <ButtonView part={part.accessory} message={message} />
    ) : (
      <Picture
        url={part.accessory.media.url}
        alt={part.accessory.description ?? ''}
        small
        spoiler={part.accessory.spoiler === true}
        message={message}
      />
    )}
  </div>
);

const isButton = (part: SectionPart['accessory']): part is ButtonPart => part.type === 2;
