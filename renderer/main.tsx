import './look/fonts.css';
import './look/tokens.css';
import './look/base.css';
import { createRoot } from 'react-dom/client';
import { assert } from '../core/result';
import { Fault } from './frame/fault';
import { Frame } from './frame/frame';
import { followLook } from './look/follow-look';
import { chooseHost } from './host/choose-host';
import { start } from './start';

const root = document.getElementById('window');
assert(root !== null, 'index.html has no element "window"');
followLook();
createRoot(root).render(
  <Fault>
    <Frame />
  </Fault>,
);
void chooseHost().then((host) => (host === null ? undefined : start(host)));
