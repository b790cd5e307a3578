import { render } from 'preact';
import { RoomPage } from './room-page.tsx';

const root = document.getElementById('room');
if (root) {
  root.replaceChildren();
  render(<RoomPage />, root);
}
