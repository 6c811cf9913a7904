"""Writes a network's large weights as 8-bit whole numbers with a scale a row; what reads the file turns them back as it loads.

pack(SOURCE.onnx, TARGET.onnx). Matrices and LSTM weights of more than 4,096 values are packed; the rest stays as it is. Only the file is
smaller: the sums are done in 32-bit floats.
"""
import sys
import numpy as np, onnx
from onnx import TensorProto, helper, numpy_helper


def pack(source, target):
    model = onnx.load(source)
    graph = model.graph
    nodes, kept = [], []
    for tensor in graph.initializer:
        weights = numpy_helper.to_array(tensor)
        if weights.dtype != np.float32 or weights.size < 4096 or weights.ndim < 2:
            kept.append(tensor)
            continue
        # One scale an output: the last axis of a matrix that is multiplied from the right, else all but the last axis.
        axes = 0 if weights.ndim == 2 else tuple(range(1 if weights.ndim == 4 else weights.ndim - 1, weights.ndim))
        scale = np.maximum(np.abs(weights).max(axis=axes, keepdims=True), 1e-12) / 127
        whole = np.clip(np.round(weights / scale), -127, 127).astype(np.int8)
        name = tensor.name
        kept += [numpy_helper.from_array(whole, name + "_whole"), numpy_helper.from_array(scale.astype(np.float32), name + "_scale")]
        nodes += [helper.make_node("Cast", [name + "_whole"], [name + "_float"], to=TensorProto.FLOAT), helper.make_node("Mul", [name + "_float", name + "_scale"], [name])]
    rest = list(graph.node)
    del graph.node[:], graph.initializer[:]
    graph.node.extend(nodes + rest)
    graph.initializer.extend(kept)
    onnx.checker.check_model(model)
    onnx.save(model, target)


if __name__ == "__main__":
    pack(sys.argv[1], sys.argv[2])
