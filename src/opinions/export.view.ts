import { noteView } from '../critters/names.view.ts';
import { md, type MessageView } from '../discord/message-view.ts';

export const exportView = (count: number, content: string): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [
    { kind: 'text', text: md`## ${count === 1 ? '1 settled case' : `${count} settled cases`}` },
    {
      kind: 'text',
      text: md`Each as a test case: the words, the entry, what was understood, the photo and the tally.`,
    },
    { kind: 'file', name: 'cases.yaml', content },
  ],
});

export const nothingToExportView = (): MessageView =>
  noteView('There is no settled case yet', md`A case is exported once a curator has settled it with a reason.`);

export const notForYouView = (): MessageView =>
  noteView(
    'That is for curators',
    md`A curator has a role named **curator**, or may manage messages here. Ask one of them.`,
  );
