"""The acoustic network: mel frames, a pre-trained convolutional speech embedding, a bidirectional LSTM head, phone posteriors every 40 ms.

The mel front end and the embedding are those of Lin and others, "Training keyword spotters with limited and synthesized speech data"
(2020, arXiv 2002.01322), published by Google under Apache 2.0; melspectrogram.onnx and embedding_model.onnx in FOLDER carry their weights.
"""
import onnx, torch, torch.nn as nn, torch.nn.functional as F
from onnx import numpy_helper

PHONES = "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split()
LABELS = len(PHONES) + 1  # 0 is the blank of CTC
LABEL_OF = {phone: index + 1 for index, phone in enumerate(PHONES)}


def initializers(graph):
    return {t.name: torch.tensor(numpy_helper.to_array(t).copy()) for t in graph.initializer}


class Mel(nn.Module):
    """Samples [batch, time] in 16-bit scale to log mel energies [batch, frames, 32], 10 ms a frame."""

    def __init__(self, folder):
        super().__init__()
        weights = initializers(onnx.load(f"{folder}/melspectrogram.onnx").graph)
        for own, theirs in (("real", "conv_real"), ("imaginary", "conv_imag"), ("mel", "melW")):
            self.register_buffer(own, next(v for k, v in weights.items() if theirs in k).float())

    def forward(self, samples):
        real = F.conv1d(samples[:, None], self.real, stride=160)
        imaginary = F.conv1d(samples[:, None], self.imaginary, stride=160)
        decibels = 10 * torch.log10(((real * real + imaginary * imaginary).transpose(1, 2) @ self.mel).clamp(min=1e-10))
        return torch.maximum(decibels, decibels.amax((1, 2), keepdim=True) - 80) / 10 + 2


class Embedding(nn.Module):
    """Mel frames to 192 features every 40 ms: the published network without its last pooling and convolution."""

    def __init__(self, folder):
        super().__init__()
        graph = onnx.load(f"{folder}/embedding_model.onnx").graph
        weights = initializers(graph)
        self.steps, self.weights = [], nn.ParameterList()
        pools = convolutions = 0
        for node in graph.node:
            attributes = {a.name: list(a.ints) for a in node.attribute}
            if node.op_type == "Conv":
                if convolutions == 19:
                    break
                convolutions += 1
                pad = attributes.get("pads", [0, 0, 0, 0])
                self.weights.append(nn.Parameter(weights[node.input[1]]))
                self.weights.append(nn.Parameter(weights[node.input[2]]))
                self.steps.append(("convolve", len(self.weights) - 2, (pad[0], pad[1])))
            elif node.op_type == "LeakyRelu":
                self.steps.append(("leak",))
            elif node.op_type == "Max":
                self.steps.append(("floor", float(weights[node.input[1]].reshape(-1)[0])))
            elif node.op_type == "MaxPool":
                pools += 1
                if pools == 5:
                    break
                self.steps.append(("pool", attributes["kernel_shape"], attributes["strides"]))

    def forward(self, mel):
        # The convolutions take frames away at both ends: as many are put there first.
        x = F.pad(mel.transpose(1, 2), (36, 36), mode="replicate").transpose(1, 2)[:, None]
        for step in self.steps:
            if step[0] == "convolve":
                x = F.conv2d(x, self.weights[step[1]], self.weights[step[1] + 1], padding=step[2])
            elif step[0] == "leak":
                x = F.leaky_relu(x, 0.2)
            elif step[0] == "floor":
                x = x.clamp(min=step[1])
            else:
                x = F.max_pool2d(x, step[1], step[2])
        return x.permute(0, 2, 1, 3).flatten(2)


class Network(nn.Module):
    def __init__(self, folder, hidden=320, layers=2):
        super().__init__()
        self.mel, self.embedding = Mel(folder), Embedding(folder)
        self.project, self.norm = nn.Linear(192, 256), nn.LayerNorm(256)
        self.lstm = nn.LSTM(256, hidden, layers, bidirectional=True, batch_first=True, dropout=0.25)
        self.out = nn.Linear(2 * hidden, LABELS)

    def forward(self, samples, spoil=None):
        """Log posteriors [batch, frames, labels]; `spoil` changes mel frames in training."""
        with torch.autocast("cuda", enabled=False):  # a power spectrum needs more than 8 bits
            mel = self.mel(samples.float())
        x = self.embedding(mel if spoil is None else spoil(mel))
        x = F.dropout(F.gelu(self.norm(self.project(x))), 0.15, self.training)
        x, _ = self.lstm(x)
        return F.log_softmax(self.out(F.dropout(x, 0.15, self.training)).float(), -1)
