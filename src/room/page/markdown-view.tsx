import type { ComponentChildren } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { parseMarkdown, type Block } from './markdown.ts';
import type { Inline } from './markdown-inline.ts';
import { useRoom } from './room-view.ts';
import { writeTime } from './times.ts';

/** A message text, drawn as elements. */
export function Markdown({ text }: { text: string }) {
  const blocks = useMemo(() => parseMarkdown(text), [text]);
  return (
    <div class="prose">
      <Blocks blocks={blocks} />
    </div>
  );
}

const Blocks = ({ blocks }: { blocks: Block[] }) => (
  <>
    {blocks.map((block, index) => (
      <BlockView key={index} block={block} />
    ))}
  </>
);

function BlockView({ block }: { block: Block }) {
  switch (block.kind) {
    case 'paragraph':
      return <p>{inlines(block.children)}</p>;
    case 'heading':
      // One level for all, so that the outline of the page has no gaps; the size tells them apart.
      return <h3 class={`size-${block.level}`}>{inlines(block.children)}</h3>;
    case 'small':
      return <p class="small">{inlines(block.children)}</p>;
    case 'quote':
      return (
        <blockquote>
          <Blocks blocks={block.blocks} />
        </blockquote>
      );
    case 'code':
      return (
        <pre tabIndex={0}>
          <code>{block.text}</code>
        </pre>
      );
    case 'list': {
      const items = block.items.map((item, index) => (
        <li key={index}>
          <Blocks blocks={item} />
        </li>
      ));
      return block.ordered ? <ol start={block.start}>{items}</ol> : <ul>{items}</ul>;
    }
  }
}

const inlines = (nodes: Inline[]) => nodes.map((node, index) => <InlineView key={index} node={node} />);

function InlineView({ node }: { node: Inline }) {
  switch (node.kind) {
    case 'text':
      return <>{node.text}</>;
    case 'break':
      return <br />;
    case 'code':
      return <code>{node.text}</code>;
    case 'strong':
      return <strong>{inlines(node.children)}</strong>;
    case 'em':
      return <em>{inlines(node.children)}</em>;
    case 'under':
      return <u>{inlines(node.children)}</u>;
    case 'strike':
      return <s>{inlines(node.children)}</s>;
    case 'spoiler':
      return <Spoiler>{inlines(node.children)}</Spoiler>;
    case 'link':
      return (
        <a href={node.url} target="_blank" rel="noopener noreferrer">
          {inlines(node.children)}
        </a>
      );
    default:
      return <Reference node={node} />;
  }
}

type ReferenceNode = Extract<Inline, { kind: 'member' | 'role' | 'channel' | 'command' | 'time' }>;

/** Something that the room knows the name of. */
function Reference({ node }: { node: ReferenceNode }) {
  const room = useRoom();
  switch (node.kind) {
    case 'member':
      return (
        <span class="mention">@{room.state.members.find(({ id }) => id === node.id)?.name ?? 'someone who left'}</span>
      );
    case 'role':
      return <span class="mention">@{room.state.roles.find(({ id }) => id === node.id)?.name ?? 'a former role'}</span>;
    case 'channel': {
      const channel = room.state.channels.find(({ id }) => id === node.id);
      if (!channel) return <span class="mention">#a place you cannot see</span>;
      return (
        <button type="button" class="mention" onClick={() => room.openChannel(channel.id)}>
          #{channel.name}
        </button>
      );
    }
    case 'command':
      return (
        <button type="button" class="mention" onClick={() => room.prefill(`/${node.name} `)}>
          /{node.name}
        </button>
      );
    case 'time': {
      const instant = new Date(node.seconds * 1000);
      return (
        <time
          dateTime={Number.isNaN(instant.getTime()) ? undefined : instant.toISOString()}
          title={writeTime(instant, 'F', room.me, room.now)}
        >
          {writeTime(instant, node.style, room.me, room.now)}
        </time>
      );
    }
  }
}

/** Hidden until asked for; a button, so that the keyboard reaches it. */
export function Spoiler({ children }: { children: ComponentChildren }) {
  const [open, setOpen] = useState(false);
  if (open) return <span class="spoiler open">{children}</span>;
  return (
    <button type="button" class="spoiler" onClick={() => setOpen(true)}>
      Hidden: press to show
    </button>
  );
}
