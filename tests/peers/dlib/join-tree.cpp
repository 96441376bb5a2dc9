// Posteriors of a discrete Bayesian network by dlib's join tree, as a peer to check answers and time against.
//
// Reads from standard input, all numbers in plain text:
//   variables; for each: states, parents, the parents' indices, then P(state | parents) with the first parent slowest
//   and the state fastest; parents come before children, and the graph must be connected
//   findings; for each: variable, state
//   runs to time
// Writes the median nanoseconds of one pass (propagation under the evidence and reading every posterior; the join tree
// itself is built before), then one line of probabilities for each variable.
#include <dlib/bayes_utils.h>
#include <dlib/directed_graph.h>
#include <dlib/graph.h>
#include <dlib/graph_utils.h>
#include <dlib/set.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <iostream>
#include <vector>

using namespace dlib;
using namespace dlib::bayes_node_utils;

typedef directed_graph<bayes_node>::kernel_1a network_type;
typedef set<unsigned long>::compare_1b set_type;
typedef graph<set_type, set_type>::kernel_1a join_tree_type;

int main() {
  unsigned long count;
  if (!(std::cin >> count)) return 1;
  network_type network;
  network.set_number_of_nodes(count);
  std::vector<unsigned long> states(count);
  for (unsigned long v = 0; v < count; v++) {
    unsigned long parent_count;
    std::cin >> states[v] >> parent_count;
    std::vector<unsigned long> parents(parent_count);
    unsigned long rows = 1;
    for (unsigned long& parent : parents) {
      std::cin >> parent;
      network.add_edge(parent, v);
      rows *= states[parent];
    }
    set_node_num_values(network, v, states[v]);
    for (unsigned long row = 0; row < rows; row++) {
      assignment given;
      unsigned long rest = row;
      for (unsigned long k = parent_count; k-- > 0;) {
        given.add(parents[k], rest % states[parents[k]]);
        rest /= states[parents[k]];
      }
      for (unsigned long state = 0; state < states[v]; state++) {
        double probability;
        if (!(std::cin >> probability)) return 1;
        set_node_probability(network, v, state, given, probability);
      }
    }
  }
  unsigned long findings, runs;
  std::cin >> findings;
  for (unsigned long k = 0; k < findings; k++) {
    unsigned long v, state;
    std::cin >> v >> state;
    set_node_value(network, v, state);
    set_node_as_evidence(network, v);
  }
  if (!(std::cin >> runs) || runs == 0) return 1;

  join_tree_type tree;
  create_moral_graph(network, tree);
  create_join_tree(tree, tree);

  std::vector<long long> nanoseconds;
  std::vector<std::vector<double>> posteriors(count);
  for (unsigned long run = 0; run < runs; run++) {
    const auto start = std::chrono::steady_clock::now();
    bayesian_network_join_tree solution(network, tree);
    for (unsigned long v = 0; v < count; v++) {
      const matrix<double, 1> posterior = solution.probability(v);
      posteriors[v].assign(posterior.begin(), posterior.end());
    }
    const auto end = std::chrono::steady_clock::now();
    nanoseconds.push_back(std::chrono::duration_cast<std::chrono::nanoseconds>(end - start).count());
  }
  std::sort(nanoseconds.begin(), nanoseconds.end());
  std::printf("%lld\n", nanoseconds[nanoseconds.size() / 2]);
  for (const std::vector<double>& posterior : posteriors) {
    for (double probability : posterior) std::printf("%.17g ", probability);
    std::printf("\n");
  }
}
